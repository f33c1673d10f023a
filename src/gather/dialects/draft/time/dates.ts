import {
  COMPACT_ABC,
  COMPACT_DATE,
  DATE_AB,
  DATE_ABC,
  DATE_CJK,
  DATE_D_MON,
  DATE_D_MON_Y2,
  DATE_MD,
  DATE_MON_D,
  DATE_OF_YEAR,
  DATE_OF_YEAR2,
  DATE_SPACED,
  DATE_WEEK,
  DATE_Y_MON_D,
  DATE_YMD,
} from './date-forms.js';
import { type Groups, isMonth, ordinal, Part } from './shape.js';

/** Between date and time: a mark, a word such as `at`, `um` or `ore`, a day of the week. */
export const BETWEEN = String.raw`(?<gap>[^\d{}]{1,24}?)`;

/** Dates before a time, and the pattern of each. */
export const DATES: readonly [string, (groups: Groups) => string | null][] = [
  [DATE_YMD, ({ d1 }) => `{year}${d1}{month}${d1}{day}`],
  [DATE_WEEK, () => '{week-date}'],
  [DATE_CJK, ({ d1, d2, d3 }) => `{year}${d1}{month}${d2}{day}${d3}`],
  [DATE_AB, ({ d1, d2 }) => `{a}${d1}{b}${d2}{year}`],
  [DATE_SPACED, () => '{a}. {b}. {year}'],
  [DATE_ABC, ({ d1, d2 }) => `{a}${d1}{b}${d2}{c}`],
  [DATE_Y_MON_D, ({ s1, s2, mon }) => (isMonth(mon) ? `{year}${s1}{month-name}${s2}{day}` : null)],
  [DATE_OF_YEAR, ({ d1, doy }) => (isOfYear(doy) ? `{year}${d1}{day-of-year}` : null)],
  [DATE_OF_YEAR2, ({ d1, doy }) => (isOfYear(doy) ? `{year2}${d1}{day-of-year}` : null)],
  [DATE_MD, ({ d1 }) => `{a}${d1}{b}`],
  [COMPACT_DATE, () => '{year}{month}{day}'],
  [COMPACT_ABC, () => '{a}{b}{c}'],
  [DATE_D_MON_Y2, ({ s1, mon }) => (isMonth(mon) ? `{day}${s1}{month-name}${s1}{year2}` : null)],
  [
    DATE_D_MON,
    ({ s1, s2, y, mon }) =>
      isMonth(mon) ? `{day}${ordinal(s1)}{month-name}${y === undefined ? '' : `${s2}{year}`}` : null,
  ],
  [
    DATE_MON_D,
    ({ s1, s2, y, mon }) =>
      isMonth(mon) ? `{month-name}${s1}{day}${y === undefined ? '' : `${ordinal(s2)}{year}`}` : null,
  ],
];

const isOfYear = (digits: string | undefined): boolean => Number(digits) >= 1 && Number(digits) <= 366;

const PARTS: ReadonlyMap<string, Part> = new Map(DATES.map(([date]) => [date, new Part(date)]));

/** A date as a part of the forms that contain it. */
export function partOf(date: string): Part {
  return PARTS.get(date) ?? new Part(date);
}
