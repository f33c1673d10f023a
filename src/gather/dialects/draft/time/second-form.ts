import { newStamp, StampPattern } from '../../time/stamp.js';
import { clocksApart, readingsOf } from './clocks-apart.js';
import type { StampGuess } from './guess.js';
import { RoughClock } from './rough-clock.js';
import { guessStamp } from './stamp-guess.js';

const DAY_MS = 86_400_000;
/** Minimum number of lines unread by the first form, and fraction of these that the second reads. */
const MIN_LINES = 8;
const SHARE_LEFT = 0.03;
const READS = 0.3;
/** Minimum fraction of forward steps of both together. */
const FORWARD = 0.97;
/** In a log whose stamps may be anywhere, the minimum fraction of lines that two forms at line beginnings must read. */
const AS_MUCH = 0.99;
const LOOKED_AT = 3000;

/**
 * In a log written by two programs, or with some lines stamped differently: the form of the others in addition to the
 * main one. Unchanged if lines have one form, or if the second is another time.
 */
export function withSecondForm(guess: StampGuess | null, all: readonly string[]): StampGuess | null {
  const lines = all.slice(0, LOOKED_AT);
  if (guess === null || guess.since === 'previous') return guess;
  if (guess.at === 'start') return added(guess, lines) ?? guess;
  if (guess.pattern.includes('{elapsed')) return guess;
  const first = guessStamp(lines, false, [], ['start']);
  const both = first === null || first.pattern.includes('{elapsed') ? null : added(first, lines);
  // The same stamp after other words is found anywhere.
  const isOther = both?.more?.some((one) => stampIn(one) !== stampIn(both.pattern)) === true;
  return both !== null && isOther && both.coverage >= AS_MUCH * guess.coverage ? both : guess;
}

/** A pattern without the text around its placeholders. */
function stampIn(pattern: string): string {
  return /\{.*\}/.exec(pattern)?.[0] ?? '';
}

function added(guess: StampGuess, lines: readonly string[]): StampGuess | null {
  const pattern = new StampPattern(guess.pattern);
  const stamp = newStamp();
  let firstMs = NaN;
  const left = lines.filter((line) => {
    const bytes = Buffer.from(line.slice(0, 400));
    if (!pattern.readAt(bytes, 0, bytes.length, stamp)) return true;
    if (Number.isNaN(firstMs)) firstMs = stamp.ms;
    return false;
  });
  if (left.length < Math.max(MIN_LINES, SHARE_LEFT * lines.length)) return null;
  const counts = pattern.kind === 'elapsed';
  const days =
    counts || pattern.kind === 'time' || Number.isNaN(firstMs) ? [] : [Math.floor(firstMs / DAY_MS) * DAY_MS];
  // Indented lines belong to the line above.
  const flush = left.filter((line) => !/^\s/.test(line));
  const second = guessStamp(flush, false, days, ['start']);
  if (second === null || second.pattern.includes('{elapsed')) return null;
  // Times of day next to counters are the start of the day, or of the counter.
  if (counts && !/\{(?:day|epoch)/.test(second.pattern)) return null;
  const read = second.coverage * flush.length;
  if (read < Math.max(MIN_LINES, READS * left.length)) return null;
  const clocks = clocksApart(readingsOf(pattern, new StampPattern(second.pattern), lines));
  const clock = new RoughClock(guess.pattern, 'start', [second.pattern], undefined, clocks?.aheadMs);
  const times = lines.flatMap((line) => clock.read(line)?.atMs ?? []);
  const forward = times.filter((ms, i) => i > 0 && ms >= (times[i - 1] ?? NaN) - JITTER_MS).length;
  if (forward < FORWARD * (times.length - 1)) return null;
  // The two are combined only if they give the same dates.
  const spanMs = (times.at(-1) ?? NaN) - (times[0] ?? NaN);
  if (!(spanMs < MOST_DAYS * DAY_MS)) return null;
  return {
    ...guess,
    more: [second.pattern],
    coverage: times.length / Math.max(1, lines.length),
    ...(clocks === null ? {} : { moreAheadMs: clocks.aheadMs, zone: clocks.zone }),
  };
}

const JITTER_MS = 10_000;
const MOST_DAYS = 20;
