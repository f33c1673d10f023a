import { groupBy } from '../../../../model/index.js';
import { dayPart, PART_BEFORE, PART_BEHIND } from '../../time/day-parts.js';
import type { BaseLine, HeadLine } from './base-lines.js';
import { escapeBraces } from './counting.js';
import { findDate } from './date-shapes.js';
import { isMonth } from './shape.js';
import { isWeekday, withWeekdays } from './weekdays.js';

/** Minimum number of headings of one form. */
const MIN_HEADINGS = 3;
/** Maximum number of hours between headings; minimum fraction of headings one hour after the previous. */
const MOST_HOURS = 6;
const ONE_ON = 0.6;
const LONGEST = 120;
const NUMBER = /(?<![\d.:,/-])\d{1,2}(?![\d:]|[.,/-]\d)/g;
const BEFORE = new RegExp(`(?:${PART_BEFORE})\\s?$`, 'u');
const AFTER = new RegExp(`^${PART_BEHIND}`, 'u');

/** An hour in a heading, with its half of the day if stated. */
interface Hour {
  readonly start: number;
  readonly end: number;
  readonly value: number;
  readonly pattern: string;
  readonly isHalf: boolean;
}

/** Lines of one form whose number increases by one, like hours, and restarts after midnight. */
export function hourHeadings(lines: readonly HeadLine[]): BaseLine[][] {
  const short = lines.filter(({ text }) => text.length <= LONGEST && /\d/.test(text));
  const forms = groupBy(short, ({ text }) => wholeLine(text, text.length, text.length));
  return [...forms.values()]
    .filter(({ length }) => length >= MIN_HEADINGS)
    .flatMap((own) => {
      const hours = own.map(({ text }) => hoursIn(text));
      const places = Math.min(...hours.map(({ length }) => length));
      const place = Array.from({ length: places }, (_, i) => i).find((i) => areHours(hours.map((all) => all[i])));
      if (place === undefined) return [];
      const plain = own.flatMap((line, i) => baseOf(line, hours[i]?.[place]));
      return [plain, ...withRemarks(plain, short, place)];
    });
}

/** What may follow the hour in some headings: the new date after midnight, a remark. */
const REMARK = String.raw`(?:[\s,;.:(\[–—-].*)?$`;

/** The headings of one form together with those that have more behind it, where their hours fit in between. */
function withRemarks(plain: readonly BaseLine[], lines: readonly HeadLine[], place: number): BaseLine[][] {
  const [first] = plain;
  if (first === undefined || 'file' in first.section || first.hasDay) return [];
  const begin = first.section.begin.replace(/\$$/, REMARK);
  const form = new RegExp(begin, 'u');
  const all = lines.filter(({ text }) => form.test(text.trim()));
  const hours = all.map(({ text }) => hoursIn(text, false)[place]);
  if (all.length === plain.length || !areHours(hours)) return [];
  const { base } = first.section;
  return [all.flatMap((line, i) => baseOf(line, hours[i], false).map((one) => ({ ...one, section: { begin, base } })))];
}

/** A pattern of a whole line with variable numbers, months and days of the week; it captures the text between. */
export function wholeLine(text: string, start: number, end: number): string {
  const before = formOf(text.slice(0, start).trimStart());
  const after = formOf(text.slice(end).trimEnd());
  return `^${before}(?<time>${formOf(text.slice(start, end))})${after}$`;
}

/** Half of the day, which changes after midnight. */
const HALF = new RegExp(`${PART_BEFORE}|(?<=\\d)${PART_BEHIND}`, 'gu');

function formOf(text: string): string {
  return text.split(HALF).map(plainForm).join('\\D+?');
}

function plainForm(text: string): string {
  return text
    .replace(/[\\^$.*+?()[\]{}|]/g, '\\$&')
    .replace(/\d+/g, '\\d+')
    .replace(/\p{L}{2,}\.?/gu, (word) => (isWeekday(word) || isMonth(word) ? '[^\\s\\d]+' : word))
    .replace(/\s+/g, '\\s+');
}

/** @param isDated whether numbers of a date are none */
function hoursIn(text: string, isDated = true): Hour[] {
  const date = isDated ? findDate(text) : null;
  return [...text.matchAll(NUMBER)].flatMap(({ 0: digits, index }): Hour[] => {
    if (date !== null && index < date.end && index + digits.length > date.start) return [];
    const [before = ''] = BEFORE.exec(text.slice(0, index)) ?? [];
    const [after = ''] = AFTER.exec(text.slice(index + digits.length)) ?? [];
    const isHalf = dayPart((before || after).trim()) !== null;
    const gap = /\s/.test(before || after) ? ' ' : '';
    const pattern = before !== '' ? `{am-pm}${gap}{hour12}` : after !== '' ? `{hour12}${gap}{am-pm}` : '{hour}';
    const end = index + digits.length + after.length;
    return [{ start: index - before.length, end, value: Number(digits), pattern, isHalf }];
  });
}

function areHours(hours: readonly (Hour | undefined)[]): boolean {
  const isHalf = hours.some((hour) => hour?.isHalf === true);
  const around = isHalf ? 12 : 24;
  const values = hours.map((hour) => hour?.value ?? NaN);
  const steps = values.slice(1).map((value, i) => (value - (values[i] ?? NaN) + around) % around);
  return (
    values.every((value) => value <= (isHalf ? 12 : 24)) &&
    steps.every((step) => step > 0 && step <= MOST_HOURS) &&
    steps.filter((step) => step === 1).length >= ONE_ON * steps.length
  );
}

function baseOf(line: HeadLine, hour: Hour | undefined, isDated = true): BaseLine[] {
  if (hour === undefined) return [];
  const { text } = line;
  const date = isDated ? findDate(text) : null;
  const start = Math.min(hour.start, date?.start ?? hour.start);
  const end = Math.max(hour.end, date?.end ?? hour.end);
  const literal = (from: number, to: number): string => withWeekdays(escapeBraces(text.slice(from, to)));
  const base =
    date === null
      ? hour.pattern
      : date.start < hour.start
        ? `${date.pattern}${literal(date.end, hour.start)}${hour.pattern}`
        : `${hour.pattern}${literal(hour.end, date.start)}${date.pattern}`;
  return [
    {
      line,
      stamp: { start, end, pattern: base },
      section: { begin: wholeLine(text, start, end), base },
      hasDay: date !== null,
      isMidnight: false,
    },
  ];
}
