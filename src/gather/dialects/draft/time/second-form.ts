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
  if (guess.at === 'start') return withMore(guess, lines);
  if (guess.pattern.includes('{elapsed')) return guess;
  const first = guessStamp(lines, { hasBase: false, stated: [] }, ['start']);
  const both = first === null || first.pattern.includes('{elapsed') ? null : added(first, lines);
  // The same stamp after other words is found anywhere.
  const isOther = both?.more?.some((one) => stampIn(one) !== stampIn(both.pattern)) === true;
  return both !== null && isOther && both.coverage >= AS_MUCH * guess.coverage ? both : guess;
}

/** The stamps of up to three writers. */
function withMore(guess: StampGuess, lines: readonly string[]): StampGuess {
  const both = added(guess, lines);
  return both === null ? guess : (added(both, lines) ?? both);
}

/** A pattern without the text around its placeholders. */
function stampIn(pattern: string): string {
  return /\{.*\}/.exec(pattern)?.[0] ?? '';
}

function added(guess: StampGuess, lines: readonly string[]): StampGuess | null {
  const pattern = new StampPattern(guess.pattern);
  const stamp = newStamp();
  let firstMs = NaN;
  const known = (guess.more ?? []).map((source) => new StampPattern(source));
  const left = lines.filter((line) => {
    const bytes = Buffer.from(line.slice(0, 400));
    if (!pattern.readAt(bytes, 0, bytes.length, stamp))
      return !known.some((one) => one.readAt(bytes, 0, bytes.length, stamp));
    if (Number.isNaN(firstMs)) firstMs = stamp.ms;
    return false;
  });
  if (left.length < Math.max(MIN_LINES, SHARE_LEFT * lines.length)) return null;
  const counts = pattern.kind === 'elapsed';
  const isDated = !counts && pattern.kind !== 'time' && pattern.kind !== 'month-day-time';
  const days = isDated && !Number.isNaN(firstMs) ? [Math.floor(firstMs / DAY_MS) * DAY_MS] : [];
  // Indented lines belong to the line above.
  const flush = left.filter((line) => !/^\s/.test(line));
  const second = guessStamp(flush, { hasBase: false, stated: days }, ['start']);
  if (second === null || second.pattern.includes('{elapsed')) return null;
  // Times of day next to counters are the start of the day, or of the counter.
  if (counts && !/\{(?:day|epoch)/.test(second.pattern)) return null;
  const read = second.coverage * flush.length;
  if (read < Math.max(MIN_LINES, READS * left.length)) return null;
  const other = new StampPattern(second.pattern);
  const clocks = guess.more === undefined ? clocksApart(readingsOf(pattern, other, lines)) : null;
  const { moreAheadMs = clocks?.aheadMs } = guess;
  const nearMs = guess.nearMs ?? yearOfBoth([pattern, ...known, other], lines);
  const both: StampGuess = {
    ...guess,
    more: [...(guess.more ?? []), second.pattern],
    ...(Number.isNaN(nearMs) ? {} : { nearMs }),
    ...(moreAheadMs === undefined ? {} : { moreAheadMs }),
    ...(clocks === null ? {} : { zone: clocks.zone }),
  };
  const { evening: _, ...apart } = both;
  const clock = RoughClock.of(apart);
  const times = lines.flatMap((line) => clock.read(line)?.atMs ?? []);
  const forward = times.filter((ms, i) => i > 0 && ms >= (times[i - 1] ?? NaN) - JITTER_MS).length;
  if (forward < FORWARD * (times.length - 1)) return null;
  // The forms are combined only if they give the same dates.
  const spanMs = (times.at(-1) ?? NaN) - (times[0] ?? NaN);
  if (!(spanMs < MOST_DAYS * DAY_MS)) return null;
  return { ...both, coverage: times.length / Math.max(1, lines.length) };
}

/** Where some of the forms have a year and others none: the first instant that has one, ms; otherwise NaN. */
function yearOfBoth(patterns: readonly StampPattern[], lines: readonly string[]): number {
  const dated = patterns.filter(({ kind }) => kind === 'date-time' || kind === 'epoch');
  if (dated.length === 0 || !patterns.some(({ kind }) => kind === 'month-day-time')) return NaN;
  const stamp = newStamp();
  const first = lines.find((line) => {
    const bytes = Buffer.from(line.slice(0, 400));
    return dated.some((one) => one.readAt(bytes, 0, bytes.length, stamp));
  });
  return first === undefined ? NaN : stamp.ms;
}

const JITTER_MS = 10_000;
const MOST_DAYS = 20;
