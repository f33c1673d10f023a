import { monthNumber } from '../../time/month-names.js';
import { MONTH_NAME, NO_DIGIT_BEFORE } from './date-forms.js';
import { type Groups, isMonth, ordinal, shape, type Shape } from './shape.js';
import { withWeekdays } from './weekdays.js';

/** Between the two dates of a night: a mark or a short word. */
const TO = String.raw`(?<r>\.?\s?(?:[^\d\s{}.]|bis|auf|auf den|to|into|and|al|au|a|y|e|et|para|til|till|tot|op|na|až|do|から|到|至)\s?)`;
/** The same around a day of the week: ` auf Freitag, `. */
const TO_DAY = String.raw`(?<r>[^\d{}]{2,24}?)`;
const DAY_ENDS = String.raw`(?!\d|[:.]\d)`;
const OF = String.raw`\.?(?: de | of | d['’]|[ /-])`;
const OF_YEAR = `,?(?: de | del |[ /-])`;
const LEAST_LAST = 28;

/** Whether the second number is the day after the first, in that month or the next. */
function follows({ d, e }: Groups): boolean {
  return Number(e) === Number(d) + 1 || (Number(e) === 1 && Number(d) >= LEAST_LAST);
}

/** Whether the months of both days are equal or consecutive, as the days require. */
function monthsFollow({ d, e }: Groups, first: number, second: number): boolean {
  return Number(e) === 1 ? second === first + 1 && Number(d) >= LEAST_LAST : second === first;
}

const to = (text: string | undefined): string => withWeekdays(text ?? '');

/**
 * A night by the dates of both its days, `22/23.01.2026`: the first is the evening's. New Year's Eve is excluded, since
 * the stated year may belong to the second day.
 */
export const NIGHT_SHAPES: readonly Shape[] = [
  shape(
    `${NO_DIGIT_BEFORE}(?<y>(?:19|20)\\d{2})(?<s>[-/.])(?<m>\\d{1,2})\\k<s>(?<d>\\d{1,2})(?<r>\\s?[^\\d\\s{}:.]\\s?)(?<e>\\d{1,2})${DAY_ENDS}(?![-/]\\d)`,
    (g) => (follows(g) ? `{year}${g.s}{month}${g.s}{day}${g.r}{number}` : null),
  ),
  shape(
    `(?<!\\d)(?<y>(?:19|20)\\d{2})(?<s1>年 ?)(?<m>\\d{1,2})(?<s2>月 ?)(?<d>\\d{1,2})(?<r>日?\\s?[^\\d\\s{}日]\\s?|日?から)(?<e>\\d{1,2})日`,
    (g) => (follows(g) ? `{year}${g.s1}{month}${g.s2}{day}${g.r}{number}日` : null),
  ),
  // The months of both days, and the year once.
  shape(
    `${NO_DIGIT_BEFORE}(?<d>\\d{1,2})(?<s>[-/.])(?<m>\\d{1,2})${TO}(?<e>\\d{1,2})\\k<s>(?<n>\\d{1,2})\\k<s>(?<y>(?:19|20)?\\d{2})(?!\\d)`,
    (g) =>
      follows(g) && monthsFollow(g, Number(g.m), Number(g.n))
        ? `{day}${g.s}{month}${g.r}{number}${g.s}{number}${g.s}${year(g.y)}`
        : null,
  ),
  shape(
    `${NO_DIGIT_BEFORE}(?<m>\\d{1,2})(?<s>[-/.])(?<d>\\d{1,2})(?<r>\\s?[^\\d\\s{}:.]\\s?)(?<e>\\d{1,2})\\k<s>(?<y>(?:19|20)\\d{2})(?!\\d)`,
    (g) => (follows(g) && isMonthOfDigits(g.m) && g.r !== g.s ? `{month}${g.s}{day}${g.r}{number}${g.s}{year}` : null),
  ),
  ...[TO, TO_DAY].map((between) =>
    shape(
      `${NO_DIGIT_BEFORE}(?<d>\\d{1,2})${between}(?<e>\\d{1,2})(?<s>[-/.]|\\. )(?<m>\\d{1,2})\\k<s>(?<y>(?:19|20)\\d{2}|\\d{2}(?![\\d:]))(?!\\d)`,
      (g) =>
        follows(g) && isMonthOfDigits(g.m) && isBetween(g.r)
          ? `{day}${to(g.r)}{number}${g.s}{month}${g.s}${year(g.y)}`
          : null,
    ),
  ),
  shape(
    `(?<!\\d)(?<d>\\d{1,2})${TO_DAY}(?<e>\\d{1,2})(?<s1>${OF})(?<mon>${MONTH_NAME})(?<s2>${OF_YEAR})(?<y>(?:19|20)\\d{2})`,
    (g) =>
      follows(g) && isMonth(g.mon) && isBetween(g.r) ? `{day}${to(g.r)}{number}${g.s1}{month-name}${g.s2}{year}` : null,
  ),
  shape(
    `(?<!\\d)(?<d>\\d{1,2})(?<s1>${OF})(?<mon>\\p{L}{3,12}\\.?)(?<r>\\s?[^\\d{}]{1,12}?\\s?)(?<e>\\d{1,2})(?<s3>${OF})(?<next>\\p{L}{3,12}\\.?)(?<s2>${OF_YEAR})(?<y>(?:19|20)\\d{2})`,
    (g) =>
      Number(g.e) === Number(g.d) + 1 && isMonth(g.mon) && monthNumber(g.next ?? '') === monthNumber(g.mon ?? '')
        ? `{day}${g.s1}{month-name}${to(g.r)}{number}${g.s3}{weekday}${g.next?.endsWith('.') ? '.' : ''}${g.s2}{year}`
        : null,
  ),
  shape(
    `(?<mon>\\p{L}{3,12}\\.?)(?<s1> {1,2}|[/-])(?<d>\\d{1,2})(?<o>st|nd|rd|th)?${TO}(?:(?<next>\\p{L}{3,12})(?<s3> ))?(?<e>\\d{1,2})(?<s2>(?:st|nd|rd|th)?,? )(?<y>(?:19|20)\\d{2})`,
    (g) =>
      follows(g) && isMonth(g.mon) && (g.next === undefined || isMonthAfter(g))
        ? `{month-name}${g.s1}{day}${ordinal(g.o)}${g.r}${g.next === undefined ? '' : `{weekday}${g.s3}`}{number}${ordinal(g.s2)}{year}`
        : null,
  ),
];

/** The same without the year, which is stated elsewhere. */
export const YEARLESS_NIGHTS: readonly Shape[] = [
  shape(
    `(?<!\\d)(?<d>\\d{1,2})${TO}(?<e>\\d{1,2})(?<s1>${OF})(?<mon>\\p{L}{3,12}\\.?)(?!\\p{L}|${OF_YEAR}(?:19|20)\\d{2})`,
    (g) => (Number(g.e) === Number(g.d) + 1 && isMonth(g.mon) ? `{day}${g.r}{number}${g.s1}{month-name}` : null),
  ),
];

const year = (digits: string | undefined): string => (digits?.length === 2 ? '{year2}' : '{year}');
const isMonthOfDigits = (digits: string | undefined): boolean => Number(digits) >= 1 && Number(digits) <= 12;

function isMonthAfter(groups: Groups): boolean {
  return monthsFollow(groups, monthNumber(groups.mon ?? ''), monthNumber(groups.next ?? ''));
}

/** Longer text between two numbers makes them the dates of a night only if it contains a day of the week. */
function isBetween(text: string | undefined): boolean {
  return new RegExp(`^${TO}$`, 'u').test(text ?? '') || to(text).includes('{weekday}');
}

/** Whether a pattern reads a night by the dates of both its days: the first is the evening's, even if repeated. */
export function isOfBothDays(pattern: string): boolean {
  return pattern.includes('{number}');
}
