import { StampPattern } from '../../time/stamp.js';
import type { StampGuess } from './guess.js';
import { Part, shape, type Shape } from './shape.js';
import { proofOf } from './stamp-proof.js';

type Row = ReadonlyMap<string, string>;

/** Serial days of the years 2020 to 2036 in spreadsheets, and fractions of a day to a second at least. */
const DAY = String.raw`4[4-9]\d{3}`;
const FRACTION = String.raw`[.,]\d{4,17}`;
const HAS_DAY = new Part(String.raw`(?<![\d.,])${DAY}(?:${FRACTION}| 0${FRACTION})(?!\d)`);

/** Spreadsheet times as serial numbers: `46283.795139`, or day and fraction in adjacent cells. */
export const SERIAL_DAYS: readonly Shape[] = [
  shape(String.raw`(?<![\d.,])${DAY}${FRACTION}(?!\d)`, () => '{serial-day}', [HAS_DAY]),
  shape(String.raw`(?<![\d.,])${DAY} 0${FRACTION}(?!\d)`, () => '{serial-day} 0{day-fraction}', [HAS_DAY]),
];

const IS_DAY = new RegExp(`^${DAY}$`);
const IS_PART = new RegExp(`^0${FRACTION}$`);
const NEARLY_ALL = 0.98;
/** Maximum number of days in the table of a night. */
const MOST_DAYS = 3;
const MIN_ROWS = 5;

/** Whether a column holds the integer serial days of one night. */
export function holdsSerialDays(rows: readonly Row[], path: string): boolean {
  const values = new Set(rows.map((row) => row.get(path) ?? ''));
  return values.size <= MOST_DAYS && [...values].every((value) => IS_DAY.test(value));
}

/** Modified Julian days of the years 2023 to 2028. */
export const MJD_DAY = String.raw`6[01]\d{3}`;
const IS_MJD = new RegExp(`^${MJD_DAY}$`);

/** Whether a column holds whole modified Julian days of one night. */
export function holdsModifiedJulianDays(rows: readonly Row[], path: string): boolean {
  // A remark above may explain the field as if it were one of a record.
  const days = rows.flatMap((row) => row.get(path) ?? []).filter((text) => IS_MJD.test(text));
  return days.length >= NEARLY_ALL * rows.length && new Set(days).size <= MOST_DAYS;
}

/** Whether a column holds fractions of days. */
export function holdsDayParts(rows: readonly Row[], path: string): boolean {
  return rows.filter((row) => IS_PART.test(row.get(path) ?? '')).length >= NEARLY_ALL * rows.length;
}

/** The fractions of days in a separate column, if they increase from row to row; else `null`. */
export function dayPartsAlone(rows: readonly Row[], path: string): StampGuess | null {
  return rows.length < MIN_ROWS || !holdsDayParts(rows, path) ? null : proved('0{day-fraction}', rows, [path]);
}

/** A clock next to integer serial days; `null` if they do not increase together. */
export function clockOfSerialDay(rows: readonly Row[], paths: readonly string[], clock: StampGuess): StampGuess | null {
  return clock.at === 'start' ? proved(`{serial-day} ${clock.pattern}`, rows, paths) : null;
}

/** The same next to whole modified Julian days, which are those of universal time. */
export function clockOfJulianDay(rows: readonly Row[], paths: readonly string[], clock: StampGuess): StampGuess | null {
  const stamp = clock.at === 'start' ? proved(`{mjd} ${clock.pattern}`, rows, paths) : null;
  return stamp === null ? null : { ...stamp, zone: 'utc' };
}

function proved(pattern: string, rows: readonly Row[], paths: readonly string[]): StampGuess | null {
  const texts = rows.map((row) => paths.map((path) => row.get(path) ?? '').join(' '));
  const { coverage, forward, days } = proofOf(new StampPattern(pattern), 'start', texts);
  return coverage < NEARLY_ALL || forward < NEARLY_ALL || days > MOST_DAYS
    ? null
    : { pattern, at: 'start', coverage, forward, dayFirstAssumed: false };
}
