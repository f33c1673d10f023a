import { newStamp, StampPattern } from '../../time/stamp.js';
import { COMPACT_ABC, DATE_MD, DATE_OF_YEAR2, NO_DIGIT_BEFORE } from './date-forms.js';
import { BETWEEN, DATES, partOf } from './dates.js';
import { increment } from './counting.js';
import { joined, Part, shape, type Shape } from './shape.js';
import { withWeekdays } from './weekdays.js';

/**
 * Seconds of a day: with this many digits they are not hours and minutes; shorter ones, as after midnight, are read
 * with the pattern of the others.
 */
const SECONDS = String.raw`(?<n>[+-]?(?:[0-8]\d{4}(?:[.,]\d{1,6})?|\d{4}[.,]\d{1,6}))`;
const MILLISECONDS = String.raw`(?<n>[0-8]?\d{7})`;
/** Fraction of a day, the spreadsheet representation of a time of day. */
const DAY_PART = String.raw`(?<n>0[.,]\d{4,17})`;
/** Hours and minutes of a day with decimals: which of the two, the length of the night tells. */
const HOURS = String.raw`(?<n>\d{1,2}[.,]\d{2,9})`;
const MINUTES = String.raw`(?<n>\d{1,4}[.,]\d{1,6})`;
const PERCENT = String.raw`(?<n>\d{1,2}[.,]\d{3,9})(?=\s?%)`;
/** Digits behind a point at the date are the fraction of its day. */
const NO_DECIMALS = String.raw`(?![.,]\d)`;
const ENDS = String.raw`(?![\p{L}\d_]|[.,:/-]\d)`;
const DAY_SECONDS = 86_400;
const DAY_MS = 86_400_000;

const HAS_SECONDS = new Part(`(?<!\\d)${SECONDS}${ENDS}`);
const HAS_DAY_PART = new Part(`(?<!\\d)${DAY_PART}${ENDS}`);
const HAS_DECIMALS = new Part(String.raw`(?<!\d)\d{1,4}[.,]\d{1,9}(?![\d.,])`);
const HAS_PERCENT = new Part(String.raw`\d\s?%`);
const HAS_MILLISECONDS = new Part(`(?<!\\d)${MILLISECONDS}${ENDS}`);

/** Dates that gain nothing from a number after them. */
const TOO_SHORT: ReadonlySet<string> = new Set([DATE_MD, COMPACT_ABC]);

const MARKS = '(?<gap>[T_ ,;@|]{1,3})';
const UNITS = [
  { count: HOURS, token: '{day-second*3600}', inSecond: 1 / 3600, has: HAS_DECIMALS, between: MARKS },
  { count: MINUTES, token: '{day-second*60}', inSecond: 1 / 60, has: HAS_DECIMALS, between: MARKS },
  { count: PERCENT, token: '{day-second*864}', inSecond: 1 / 864, has: HAS_PERCENT, between: MARKS },
] as const;

/** A date and the time elapsed in its day: `2026-10-14 72345.2`, `day=2026-10-14 ms=72345200`. */
export const OF_DAY: readonly Shape[] = DATES.filter(([date]) => !TOO_SHORT.has(date)).flatMap(([date, build]) => {
  const hasDate = partOf(date);
  const forms = [
    { count: SECONDS, token: '{day-second}', inSecond: 1, has: HAS_SECONDS, between: undefined },
    { count: DAY_PART, token: '0{day-fraction}', inSecond: 1, has: HAS_DAY_PART, between: undefined },
    { count: MILLISECONDS, token: '{day-ms}', inSecond: 1000, has: HAS_MILLISECONDS, between: undefined },
  ] as const;
  const inUnits = date === DATE_OF_YEAR2 ? [] : UNITS;
  return [...forms, ...inUnits].map(({ count, token, inSecond, has, between = BETWEEN }) =>
    shape(
      `${NO_DIGIT_BEFORE}${date}${NO_DECIMALS}${between}${count}${ENDS}`,
      (groups) =>
        Number(groups.n?.replace(',', '.')) < DAY_SECONDS * inSecond
          ? joined(build(groups), `${withWeekdays(groups.gap ?? '')}${token}`)
          : null,
      [has, hasDate],
    ),
  );
});

/** Fraction of equal steps: line numbers have them, and rows at a constant interval. */
const STEADY = 0.5;
/** A number does not restart at midnight, so that it seems to skip a whole day. */
const OVER_A_DAY_MS = 43_200_000;
/** Line numbers begin near zero; the seconds of an evening do not. */
const NEAR_ZERO = 3600;

/** Whether a pattern reads line numbers, ascending or descending, as seconds of a day. */
export function numbersLines(source: string, lines: readonly string[]): boolean {
  const [, token] = /\{(day-second|day-ms)(?:\*[\d.]+)?\}/.exec(source) ?? [];
  if (token === undefined) return false;
  const pattern = new StampPattern(source);
  const stamp = newStamp();
  const times = lines.flatMap((line) => {
    const bytes = Buffer.from(line.slice(0, 400));
    return pattern.find(bytes, 0, bytes.length, stamp) ? [stamp.ms] : [];
  });
  const steps = times.slice(1).map((ms, i) => Math.abs(ms - (times[i] ?? NaN)));
  const counts = new Map<string, number>();
  for (const step of steps) if (step > 0) increment(counts, String(step));
  if (Math.max(0, ...counts.values()) <= STEADY * steps.length) return false;
  const unitMs = token === 'day-ms' ? 1 : 1000;
  const isOneDay = new Set(times.map((ms) => Math.floor(ms / DAY_MS))).size === 1;
  const fromZero = isOneDay && times.some((ms) => (ms % DAY_MS) / unitMs < NEAR_ZERO);
  return fromZero || steps.some((step) => step > OVER_A_DAY_MS);
}
