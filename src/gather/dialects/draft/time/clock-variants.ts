import { newStamp, StampPattern } from '../../time/stamp.js';
import type { StampGuess } from './guess.js';

const DAY_MS = 86_400_000;
/** Of the cells, those written otherwise at most; and how far from the cells around them they may be, ms. */
const MOST = 0.5;
const NEAR_MS = 3 * 3_600_000;
const ARE_NEAR = 0.9;
/** Cells with seconds from which on those without are the odd ones. */
const MANY = 5;
/** A time of day, and nothing else in the pattern. */
const CLOCK = /^\{hour\}[^{}]{1,3}\{minute\}(?:[^{}]{1,5}\{second\}[^{}\d]{0,3})?$/;
/** How a hand writes a clock now and then, and the pattern of each, those with seconds first. */
const FORMS: readonly (readonly [RegExp, string])[] = [
  [/^\d{1,2}:\d{2}:\d{2}$/, '{hour}:{minute}:{second}'],
  [/^\d{1,2}\.\d{2}\.\d{2}$/, '{hour}.{minute}.{second}'],
  [/^\d{1,2}\.\d{2}:\d{2}$/, '{hour}.{minute}:{second}'],
  [/^\d{1,2}:\d{2}\.\d{2}$/, '{hour}:{minute}.{second}'],
  [/^\d{1,2}h\d{2}m\d{2}$/, '{hour}h{minute}m{second}'],
  [/^\d{1,2}:\d{2}$/, '{hour}:{minute}'],
  [/^\d{1,2}\.\d{2}$/, '{hour}.{minute}'],
  [/^\d{1,2}h\d{2}m?$/, '{hour}h{minute}'],
];

/**
 * The other forms in which cells of a column write the clock that most of them write in one: a point for a colon, no
 * seconds. A form counts where all that it reads is near to the cells around it.
 */
export function clockVariants(pattern: string, cells: readonly string[]): string[] {
  if (!CLOCK.test(pattern)) return [];
  const main = new StampPattern(pattern);
  const times = cells.map((text) => timeIn(main, text));
  const left = cells.flatMap((text, i) => (Number.isNaN(times[i]) && text !== '' ? [i] : []));
  if (left.length === 0 || left.length > MOST * cells.length) return [];
  return FORMS.flatMap(([form, source]) => {
    const own = left.filter((i) => form.test(cells[i]?.trim() ?? ''));
    if (own.length === 0 || source === pattern) return [];
    const other = new StampPattern(source);
    const near = own.filter((i) => isNear(timeIn(other, cells[i] ?? ''), times, i));
    return near.length >= ARE_NEAR * own.length ? [source] : [];
  });
}

/** The stamps of a column with the other forms of its clock, and as many cells read as they read together. */
export function withClockVariants(guess: StampGuess | null, cells: readonly string[]): StampGuess | null {
  if (guess === null || guess.at !== 'start' || guess.more !== undefined || !CLOCK.test(guess.pattern)) return guess;
  // What is read up to the minutes of most cells, since a few have no more, has their seconds as well.
  const wholly = (pattern: StampPattern): number => cells.filter((text) => !Number.isNaN(timeIn(pattern, text))).length;
  const longer = FORMS.find(
    ([form, source]) =>
      source.includes('{second}') &&
      !guess.pattern.includes('{second}') &&
      cells.filter((text) => form.test(text.trim())).length > Math.max(MANY, wholly(new StampPattern(guess.pattern))),
  );
  const pattern = longer?.[1] ?? guess.pattern;
  const more = clockVariants(pattern, cells);
  if (more.length === 0) return guess;
  const patterns = [pattern, ...more].map((source) => new StampPattern(source));
  const read = cells.filter((text) => patterns.some((one) => !Number.isNaN(timeIn(one, text))));
  return { ...guess, pattern, more, coverage: read.length / Math.max(1, cells.length) };
}

function timeIn(pattern: StampPattern, text: string): number {
  const bytes = Buffer.from(text.trim());
  const stamp = newStamp();
  return pattern.readAt(bytes, 0, bytes.length, stamp) && stamp.end === bytes.length ? stamp.ms : NaN;
}

/** Whether a time of day is near to the next known before, or behind. */
function isNear(ms: number, times: readonly number[], i: number): boolean {
  const before = times.slice(0, i).findLast((one) => !Number.isNaN(one));
  const behind = times.slice(i + 1).find((one) => !Number.isNaN(one));
  return [before, behind].some((one) => {
    if (one === undefined) return false;
    const apart = Math.abs(one - ms) % DAY_MS;
    return Math.min(apart, DAY_MS - apart) <= NEAR_MS;
  });
}
