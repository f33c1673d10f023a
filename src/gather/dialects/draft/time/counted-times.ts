import { RoughClock } from './rough-clock.js';
import { ZERO } from './base-count.js';
import type { BaseLine } from './base-lines.js';
import type { StampGuess } from './guess.js';

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;
/** A log begins within this time of the instant in its head. */
const SOON_MS = 45 * MINUTE_MS;
/** Nobody exposes the sky between these local times, anywhere. */
const DAYLIGHT = { fromMs: 9.5 * HOUR_MS, toMs: 15.5 * HOUR_MS } as const;
const OF_DAY = /\{(?:night-)?hour\}:\{minute\}(?::\{second\})?/;
const OF_DAY_SPELT = /\{hour\}\s?h\s?\{minute\}\s?m(?:in|n)?\.?\s?\{second\}(?:\s?s(?:ec|ek)?)?/;

/** The meaning of `00:01:30`, and how certain it is. */
export interface CountedTimes {
  readonly stamp: StampGuess;
  /** Both readings fit equally well. */
  readonly doubtful: boolean;
}

/**
 * Decides whether `00:01:30` is a time of day or, below a line that states the start of the log, the time since then.
 * The evidence: a leading plus, where the times begin, whether they imply exposures in daylight, and whether they
 * restart after each such line.
 *
 * @param texts the texts the stamps are read from, in line order
 * @param bases unstamped lines that state an instant
 */
export function countedTimes(
  stamp: StampGuess,
  texts: readonly { readonly text: string; readonly line: number }[],
  bases: readonly BaseLine[],
): CountedTimes {
  const asRead = { stamp, doubtful: false };
  const asCount = asCounts(stamp);
  if (asCount === null || bases.length === 0) return asRead;
  const counted: CountedTimes = { stamp: asCount, doubtful: false };
  if (/\+\s*$/.test(stamp.pattern.slice(0, stamp.pattern.indexOf('{hour}')))) return counted;
  const clock = new RoughClock(stamp.pattern, stamp.at);
  const times = texts.flatMap(({ text, line }) => {
    const atMs = clock.read(text)?.atMs;
    return atMs === undefined ? [] : [{ line, ofDayMs: atMs % DAY_MS }];
  });
  const firsts = bases.flatMap((base) => {
    const first = times.find(({ line }) => line > base.line.number);
    const baseMs = timeOfDay(base);
    return first === undefined || baseMs === null ? [] : [{ first: first.ofDayMs, baseMs }];
  });
  if (!isFilled(firsts)) return isCountedBelow(times, bases) ? counted : asRead;
  // Every such line must confirm a reading: just before midnight, a single line may confirm both.
  const continues = firsts.every(({ first, baseMs }) => {
    const fromBase = (first - baseMs + DAY_MS) % DAY_MS;
    return fromBase < SOON_MS || fromBase > DAY_MS - 5 * MINUTE_MS;
  });
  const begins = firsts.every(({ first }) => first < SOON_MS);
  const [{ first, baseMs }] = firsts;
  if (begins && continues)
    return first < (first - baseMs + DAY_MS) % DAY_MS ? { ...counted, doubtful: true } : { ...asRead, doubtful: true };
  if (begins || continues) return begins ? counted : asRead;
  const day = times.filter(({ ofDayMs }) => ofDayMs > DAYLIGHT.fromMs && ofDayMs < DAYLIGHT.toMs).length;
  return day > 0.1 * times.length ? counted : asRead;
}

/**
 * Whether a line below all times says when they began: times of day would go on to the instant that it states.
 *
 * @param times those of the lines, ms of the day
 */
function isCountedBelow(
  times: readonly { readonly line: number; readonly ofDayMs: number }[],
  bases: readonly BaseLine[],
): boolean {
  const [first, last] = [times[0]?.ofDayMs ?? NaN, times.at(-1)?.ofDayMs ?? NaN];
  return bases.some((base) => {
    const atMs = timeOfDay(base);
    if (atMs === null || !ZERO.test(base.line.text) || !(first < SOON_MS)) return false;
    return (atMs - last + DAY_MS) % DAY_MS > SOON_MS && (last - atMs + DAY_MS) % DAY_MS > SOON_MS;
  });
}

/** The same stamp as times since some instant; `null` if it states more than a time of day. */
export function asCounts(stamp: StampGuess): StampGuess | null {
  const ofDay = OF_DAY.test(stamp.pattern) ? OF_DAY : OF_DAY_SPELT;
  if (!ofDay.test(stamp.pattern) || /\{day\}|\{am-pm\}|\{offset\}/.test(stamp.pattern)) return null;
  return { ...stamp, pattern: stamp.pattern.replace(ofDay, countToken(ofDay, stamp.at)) };
}

function countToken(ofDay: RegExp, at: StampGuess['at']): string {
  if (ofDay === OF_DAY_SPELT) return '{elapsed-spelt}';
  return at === 'anywhere' ? '{elapsed-clock}' : '{elapsed}';
}

function timeOfDay({ stamp, line, section }: BaseLine): number | null {
  const read = new RoughClock('file' in section ? section.file : section.base, 'anywhere').read(
    line.text.slice(stamp.start, stamp.end),
  );
  return read === null ? null : ((read.atMs % DAY_MS) + DAY_MS) % DAY_MS;
}

function isFilled<T>(list: readonly T[]): list is readonly [T, ...T[]] {
  return list.length > 0;
}
