import type { StampPlace } from '../../time/stamp.js';
import type { Proof } from './stamp-proof.js';
import type { FoundStamp } from './shape.js';
import { DOTTED_MINUTES } from './time-forms.js';

const PATTERN = '{hour}.{minute}';
/** The same run together: `1929`. */
const RUN_TOGETHER = '{hour}{minute}';
/** The same with seconds behind a point: `1929.08`. */
const WITH_SECONDS = '{hour}{minute}.{second}';
/** A column of numbers with two decimals decreases now and then, and exceeds the minutes of an hour. */
const STEADY = 0.99;
const MIN_LINES = 20;
const MIN_COVERAGE = 0.6;
const MIN_HOURS = 2;
const WORDED = 0.9;
/** The mark of an item before it, as in lists, or a bracket: `- 19.29`, `* 19.29`, `[19.29]`. */
const MARK = String.raw`^\s{0,3}(?:[-–—*+•·>]\s{1,3}|\*\*|[[(])?`;
const NUMBER = new RegExp(String.raw`${MARK}\d{1,3}\.\d{2}(?!\d)`, 'u');
/** `19.29 …`, hours and minutes in handwriting style: only all lines together show that it is not a plain number. */
const BARE = new RegExp(String.raw`${MARK}((?:[01]?\d|2[0-3])\.[0-5]\d)(?=[\s;|)\]:,*]|$)`, 'u');
const FOUR = /^(?:[-–—*+•·>]\s{1,3}|[\s[(<*]{0,3})\d{4}(?![\d.,:])/u;
const BARE_FOUR = /^(?:[-–—*+•·>]\s{1,3}|[\s[(<*]{0,3})((?:[01]\d|2[0-3])[0-5]\d)(?=[\s;|,\])>*:]|$)/u;
const SIX = /^[\s[(<]{0,3}\d{4}\.\d{2}(?![\d.,:])/;
const BARE_SIX = /^[\s[(<]{0,3}((?:[01]\d|2[0-3])[0-5]\d\.[0-5]\d)(?=[\s;|,\])>]|$)/u;
const ALONE = /^[^{}]*\{hour\}\.\{minute\}[^{}]*$/;
const OTHER_PARTS = /\{(?:year|month|day|second|offset|am-pm)/;
const WITH_WORD = new RegExp(DOTTED_MINUTES, 'u');

const FORMS: readonly (readonly [RegExp, string])[] = [
  [BARE, PATTERN],
  [BARE_FOUR, RUN_TOGETHER],
  [BARE_SIX, WITH_SECONDS],
];

/** The number before a line that may be hours and minutes. */
export function bareMinutesIn(line: string): FoundStamp[] {
  for (const [form, pattern] of FORMS) {
    const [whole = '', time = ''] = form.exec(line) ?? [];
    if (time !== '') return [{ start: whole.length - time.length, end: whole.length, pattern }];
  }
  return [];
}

/**
 * Whether `19.29` before lines is a time: a number with just a point is one if nearly all lines begin like this, none
 * goes back or exceeds 23.59, and it spans hours.
 */
export function isNoBareTime(pattern: string, at: StampPlace, lines: readonly string[], proof: Proof): boolean {
  if (pattern.includes(RUN_TOGETHER) && !OTHER_PARTS.test(pattern))
    return at !== 'start' || isNoClock(lines, FOUR, BARE_FOUR, firstDigits, proof);
  if (pattern.endsWith(WITH_SECONDS)) return at !== 'start' || isNoClock(lines, SIX, BARE_SIX, firstDigits, proof);
  if (!ALONE.test(pattern)) return false;
  if (at !== 'start') return at === 'end';
  const numbers = lines.filter((line) => NUMBER.test(line));
  if (numbers.filter((line) => WITH_WORD.test(line)).length >= WORDED * numbers.length) return false;
  return isNoClock(lines, NUMBER, BARE, firstDigits, proof);
}

const firstDigits = (line: string): string => /\d\d?/.exec(line)?.[0] ?? '';

/** Whether numbers before lines go back, are no hours and minutes, or are all of one hour. */
function isNoClock(
  lines: readonly string[],
  number: RegExp,
  clock: RegExp,
  hourOf: (line: string) => string,
  { forward, coverage }: Proof,
): boolean {
  const numbers = lines.filter((line) => number.test(line));
  return (
    forward < STEADY ||
    coverage < MIN_COVERAGE ||
    numbers.length < MIN_LINES ||
    new Set(numbers.map(hourOf)).size < MIN_HOURS ||
    !numbers.every((line) => clock.test(line))
  );
}
