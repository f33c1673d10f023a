import { groupBy } from '../../../../model/index.js';
import type { FrameTimes } from '../../check/agreement.js';
import type { LogSample } from '../sample.js';
import type { StampGuess } from '../time/guess.js';
import { RoughClock } from '../time/rough-clock.js';
import { bestFits, fitAt } from './coincidence.js';
import { UNITS } from './time-variants.js';

/** Lines that are read, and characters and numbers of each that may be its time. */
const LINES = 1500;
const LOOKED_AT = 60;
const NUMBERS = 3;
/** Fraction of the lines that have a form, and of them that run forward. */
const MOST = 0.6;
const FORWARD = 0.9;
const ALIKE = 0.85;
const NEARLY_ALL = 0.9;
const FEW_LINES = 20;
/** Fraction of a train's frames that must begin and end at lines, and how many of them may do so by chance. */
const PROVED = 0.7;
const CHANCE = 0.5;
/** A log of a night with frames is as long as these, ms for ms. */
const SHORTEST = 0.7;
const LONGEST = 4;
/** Coarser counts have a fraction. */
const COARSEST = 10;
const LEAST = 6;
const NEAR_MS = 3500;
const BACK_MS = 5000;
const NUMBER = /\d+(?:[.,]\d+)?/g;

/** A form of the beginnings of lines: the text around their numbers, and these. */
interface Form {
  readonly around: readonly string[];
  readonly numbers: readonly string[];
}

/**
 * Stamps that no line explains but the frames prove: digits at one place of the lines, read so that lines coincide with
 * the beginnings and the ends of frames. The best first; empty where none does.
 */
export function stampsByFrames({ lines }: LogSample, frames: readonly FrameTimes[]): readonly StampGuess[] {
  const texts = lines.filter((line) => line.trim() !== '').slice(0, LINES);
  if (frames.length < LEAST || texts.length < FEW_LINES) return [];
  const found = new Map<string, { readonly guess: StampGuess; readonly share: number }>();
  for (let count = 1; count <= NUMBERS; count++) {
    const forms = texts.flatMap((text) => formOf(text, count) ?? []);
    const likely = [...groupBy(forms, ({ around }) => around.join('\0')).values()].sort(
      (a, b) => b.length - a.length,
    )[0];
    const same = likely !== undefined && likely.length >= NEARLY_ALL * forms.length;
    // Letters in front of the digits may say whose line it is.
    const own = same ? likely : forms;
    if (own.length < MOST * texts.length) continue;
    for (const [pattern, at] of patternsOf(own, same)) {
      const guess = guessOf(pattern, at, texts);
      if (guess === null || found.has(pattern)) continue;
      const share = shareOf(guess, texts, frames);
      if (share >= PROVED) found.set(pattern, { guess, share });
    }
  }
  return [...found.values()].sort((a, b) => b.share - a.share).map(({ guess }) => guess);
}

/** The text before, between and behind the first numbers of a line. */
function formOf(text: string, count: number): Form | null {
  const head = text.slice(0, LOOKED_AT);
  const found = [...head.matchAll(NUMBER)].slice(0, count);
  if (found.length < count) return null;
  let end = 0;
  const around = found.map((match) => {
    const before = head.slice(end, match.index);
    end = match.index + match[0].length;
    return before.replace(/\s+/g, ' ');
  });
  return { around, numbers: found.map(([number]) => number) };
}

/** The patterns that read the last of the numbers as a time, and where they stand. */
function* patternsOf(forms: readonly Form[], same: boolean): Generator<readonly [string, StampGuess['at']]> {
  const [first] = forms;
  if (first === undefined) return;
  const before = same
    ? first.around.map((text, i) => escaped(text) + (i < first.around.length - 1 ? '{number}' : '')).join('')
    : '';
  const at = same ? 'start' : 'anywhere';
  const lasts = forms.map(({ numbers }) => numbers.at(-1) ?? '');
  const [likely] = [...groupBy(lasts, lengthsOf).values()].sort((a, b) => b.length - a.length);
  if (likely !== undefined && likely.length >= ALIKE * lasts.length) {
    const [digits = 0] = (likely[0] ?? '').split(/[.,]/).map((part) => part.length);
    const mark = /[.,]/.exec(likely[0] ?? '')?.[0] ?? '';
    const others = (length: number): string => '{digit}'.repeat(length);
    if (digits >= 6) yield [`${before}${others(digits - 6)}{hour}{minute}{second}`, at];
    if (digits >= 4) yield [`${before}${others(digits - 4)}{hour}{minute}${mark === '' ? '' : `${mark}{second}`}`, at];
  }
  if (!same && first.around.length > 1) return;
  for (const unit of UNITS) yield [`${before}${unit === 1 ? '{elapsed}' : `{elapsed*${unit}}`}`, at];
}

/** The number of digits before and behind its mark; a fraction may be of any length. */
function lengthsOf(number: string): string {
  const [whole = '', fraction] = number.split(/[.,]/);
  return `${whole.length} ${fraction === undefined ? '' : Math.min(fraction.length, 3)}`;
}

function escaped(text: string): string {
  return text.replace(/[{}]/g, '$&$&');
}

function guessOf(pattern: string, at: StampGuess['at'], texts: readonly string[]): StampGuess | null {
  const times = timesOf(pattern, at, texts);
  if (times.length < MOST * texts.length) return null;
  const forward = times.filter((atMs, i) => i === 0 || atMs >= (times[i - 1] ?? NaN) - BACK_MS).length / times.length;
  if (forward < FORWARD) return null;
  return { pattern, at, coverage: times.length / texts.length, dayFirstAssumed: false, forward };
}

function timesOf(pattern: string, at: StampGuess['at'], texts: readonly string[]): number[] {
  const clock = new RoughClock(pattern, at);
  return texts.flatMap((text) => clock.read(text)?.atMs ?? []);
}

/** How late a count in large units may be, ms. */
function resolutionMs(pattern: string): number {
  const unit = Number(/\{elapsed\*(\d+)\}/.exec(pattern)?.[1] ?? 0);
  return unit > COARSEST ? 0 : unit * 500;
}

/** The fraction of a train's frames that begin and end at lines under the best shift; 0 if as many may by chance. */
function shareOf({ pattern, at }: StampGuess, texts: readonly string[], frames: readonly FrameTimes[]): number {
  const times = timesOf(pattern, at, texts).sort((a, b) => a - b);
  const spanMs = (times.at(-1) ?? NaN) - (times[0] ?? NaN);
  const begins = frames.map(({ beginMs }) => beginMs);
  const nightMs = Math.max(...begins) - Math.min(...begins);
  // Of a count in any unit, most would let the log be over in seconds, or in years.
  if (spanMs < SHORTEST * nightMs || spanMs > LONGEST * nightMs) return 0;
  const nearMs = NEAR_MS + resolutionMs(pattern);
  if (!(times.length * 2 * nearMs < CHANCE * spanMs)) return 0;
  const trains = [...groupBy(frames, ({ train }) => train ?? '').values()].filter(({ length }) => length >= LEAST);
  return Math.max(
    0,
    ...trains.map((own) => {
      const starts = own.map(({ beginMs }) => beginMs);
      const stops = own.map(({ beginMs, seconds }) => beginMs + seconds * 1000).sort((a, b) => a - b);
      const pairs = bestFits(times, starts, nearMs).map(
        ({ shiftMs }) => fitAt(times, starts, shiftMs, nearMs).pairs + fitAt(times, stops, shiftMs, nearMs).pairs,
      );
      return Math.max(0, ...pairs) / (2 * own.length);
    }),
  );
}
