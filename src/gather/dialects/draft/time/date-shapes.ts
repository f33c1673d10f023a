import { monthNumber } from '../../time/month-names.js';
import {
  COMPACT_DATE,
  DATE_AB,
  DATE_ABC,
  DATE_CJK,
  DATE_D_MON,
  DATE_D_MON_Y2,
  DATE_ERA,
  DATE_MON_D,
  DATE_SPACED,
  DATE_WEEK,
  DATE_Y_MON_D,
  DATE_YMD,
  MONTH_NAME,
  NO_NUMBER_BEFORE,
} from './date-forms.js';
import { NIGHT_SHAPES, YEARLESS_NIGHTS } from './night-dates.js';
import { Remembered } from './remembered.js';
import { type FoundStamp, isMonth, matched, ordinal, shape, type Shape } from './shape.js';

/** Dates alone, as in a header line or a file name; a night of two dates gives its evening. */
const DATE_SHAPES: readonly Shape[] = [
  ...NIGHT_SHAPES,
  shape(
    `(?<!\\d)(?<d>\\d{1,2})(?<r1>(?:\\.|st|nd|rd|th)?)(?<r2>\\s?(?:[^\\d\\s{}]{1,3}|\\p{L}{1,6}(?:\\s\\p{L}{1,3})?)\\s?)(?<e>\\d{1,2})(?<s1>\\.(?=[IVX])|(?:\\.|st|nd|rd|th)?(?: de | of |[ -]))(?<mon>${MONTH_NAME})(?<s2>(?<=\\.)|,?(?: de | del |[ -]))(?<y>(?:19|20)\\d{2})`,
    ({ d, r1, r2, e, s1, mon, s2 }) =>
      isMonth(mon) && (!/\p{L}{4}|\p{L}\s\p{L}/u.test(r2 ?? '') || Number(e) === Number(d) + 1)
        ? `{day}${r1}${r2}{number}${s1}{month-name}${s2}{year}`
        : null,
  ),
  shape(
    `(?<!\\d)(?<d>\\d{1,2})(?<s1>\\.?(?: de | of |[ -]))(?<mon>\\p{L}{3,12})(?<r>\\s[^\\d{}]{1,12}?\\s)1(?<s3>(?:\\.|º|er|st)?(?: de | of |[ -]))(?<next>\\p{L}{3,12})(?<s2>,?(?: de | del |[ -]))(?<y>(?:19|20)\\d{2})`,
    ({ s1, mon, r, s3, next, s2 }) =>
      isMonth(mon) && monthNumber(next ?? '') === monthNumber(mon ?? '') + 1
        ? `{day}${s1}{month-name}${r}1${s3}${next}${s2}{year}`
        : null,
  ),
  shape(`${NO_NUMBER_BEFORE}${DATE_YMD}(?!\\d)`, ({ d1 }) => `{year}${d1}{month}${d1}{day}`),
  shape(`${NO_NUMBER_BEFORE}${DATE_WEEK}`, () => '{week-date}'),
  shape(`(?<!\\d)${DATE_CJK}`, ({ d1, d2, d3 }) => `{year}${d1}{month}${d2}{day}${d3}`),
  shape(DATE_ERA, () => '{era-year}年{month}月{day}日'),
  shape(`(?<!\\d)${COMPACT_DATE}(?!\\d)`, () => '{year}{month}{day}'),
  shape(`${NO_NUMBER_BEFORE}${DATE_Y_MON_D}(?!\\d)`, ({ s1, s2, mon }) =>
    isMonth(mon) ? `{year}${s1}{month-name}${s2}{day}` : null,
  ),
  shape(`(?<!\\d)${DATE_D_MON}(?!\\d)`, ({ s1, s2, y, mon }) =>
    y !== undefined && isMonth(mon) ? `{day}${ordinal(s1)}{month-name}${s2}{year}` : null,
  ),
  shape(`${DATE_MON_D}(?!\\d)`, ({ s1, s2, y, mon }) =>
    y !== undefined && isMonth(mon) ? `{month-name}${s1}{day}${ordinal(s2)}{year}` : null,
  ),
  shape(
    `${NO_NUMBER_BEFORE}${DATE_AB}(?!\\d)`,
    ({ d1, d2, a, b }) => `${Number(b) > 12 && Number(a) <= 12 ? `{month}${d1}{day}` : `{day}${d1}{month}`}${d2}{year}`,
  ),
  shape(`${NO_NUMBER_BEFORE}${DATE_SPACED}(?!\\d)`, ({ a, b }) =>
    Number(b) > 12 && Number(a) <= 12 ? '{month}. {day}. {year}' : '{day}. {month}. {year}',
  ),
  shape(`${NO_NUMBER_BEFORE}${DATE_ABC}`, ({ d1, d2, a, c }) =>
    Number(a) >= 20 && Number(c) <= 31 ? `{year2}${d1}{month}${d2}{day}` : `{day}${d1}{month}${d2}{year2}`,
  ),
  shape(`${NO_NUMBER_BEFORE}${DATE_D_MON_Y2}`, ({ s1, mon }) =>
    isMonth(mon) ? `{day}${s1}{month-name}${s1}{year2}` : null,
  ),
  shape('(?<!\\d)(?<a>\\d{2})(?:0[1-9]|1[0-2])(?<c>\\d{2})(?!\\d)', ({ a, c }) =>
    Number(a) >= 20 && isDay(c) ? '{year2}{month}{day}' : isDay(a) ? '{day}{month}{year2}' : null,
  ),
  // Days of the year, as in ISO 8601: `2026-287`, `2026287`.
  shape('(?<![\\d.,-])20\\d{2}(?<s>[-/]?)(?<doy>[0-3]\\d{2})(?!\\d|[-.,:]\\d)', ({ s, doy }) =>
    Number(doy) >= 1 && Number(doy) <= 366 ? `{year}${s}{day-of-year}` : null,
  ),
];

const isDay = (digits: string | undefined): boolean => Number(digits) >= 1 && Number(digits) <= 31;

/** Dates without a year, which is stated elsewhere. */
const YEARLESS_SHAPES: readonly Shape[] = [
  ...YEARLESS_NIGHTS,
  shape('(?<!\\d)(?<m>\\d{1,2})(?<d2>月|월 ?)(?<d>\\d{1,2})(?<d3>[日일])', ({ d2, d3 }) => `{month}${d2}{day}${d3}`),
  shape(`(?<!\\d)${DATE_D_MON}(?!\\d)`, ({ s1, y, mon }) =>
    y === undefined && isMonth(mon) ? `{day}${ordinal(s1)}{month-name}` : null,
  ),
  shape(`${DATE_MON_D}(?!\\d)`, ({ s1, y, mon }) =>
    y === undefined && isMonth(mon) ? `{month-name}${s1}{day}` : null,
  ),
];

/** The first date in a text; day before month if ambiguous. */
export function findDate(text: string): FoundStamp | null {
  return dates.of(text.slice(0, 400));
}

const dates = new Remembered((text: string): FoundStamp | null => {
  for (const one of DIGIT.test(text) ? DATE_SHAPES : []) {
    const found = matched(one, text);
    if (found !== null) return found;
  }
  return null;
});

/** Every date contains one. */
const DIGIT = /\d/;

/** The first date without a year in a text. */
export function findYearless(text: string): FoundStamp | null {
  for (const one of YEARLESS_SHAPES) {
    const found = matched(one, text.slice(0, 200));
    if (found !== null) return found;
  }
  return null;
}
