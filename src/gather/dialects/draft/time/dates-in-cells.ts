import { BLANKS } from '../../blank-columns.js';
import { escaped } from '../escaped.js';
import type { Reading } from '../reading/reading.js';
import type { DateSource } from '../report.js';
import { form, type HeadLine } from './base-lines.js';
import { yearHint } from './date-source.js';
import { findDate, findYearless } from './date-shapes.js';
import type { FoundStamp } from './shape.js';

/** Minimum number of rows with a date in the column, and the latest position of the first. */
const MOST_DAYS = 6;
const MOST_FILLED = 0.3;
const FIRST_ROWS = 2;

/**
 * The column of a table that states the date where a day begins, and leaves it empty below.
 *
 * @param name of the file
 * @param head the lines at the head, which may state the year
 */
export function datesInCells(
  { layout, fieldLines, timePaths, tables }: Reading,
  name: string,
  head: readonly HeadLine[],
): DateSource | null {
  if (layout.kind !== 'csv' || tables !== undefined || layout.delimiter === BLANKS || layout.starts !== undefined)
    return null;
  const { columns, delimiter } = layout;
  for (const [index, column] of columns.entries()) {
    if (column === '' || timePaths.includes(column)) continue;
    // Ditto marks have no digits.
    const filled = fieldLines.flatMap(({ fields, line }) => {
      const text = fields.get(column)?.trim() ?? '';
      return /\d/.test(text) ? [{ text, line }] : [];
    });
    const [first] = filled;
    if (first === undefined || !fieldLines.slice(0, FIRST_ROWS).some(({ line }) => line === first.line)) continue;
    if (filled.length > Math.min(MOST_DAYS, MOST_FILLED * fieldLines.length)) continue;
    const dates = datesOf(filled.map(({ text }) => text));
    const date = dates?.[0];
    if (dates === null || date === undefined) continue;
    const year = /year/.test(date.pattern) ? undefined : yearHint(name, head);
    if (year === null) continue;
    const mark = delimiter === '\t' ? '\\t' : escaped(delimiter);
    const before = index === 0 ? '' : `(?:(?:"[^"]*"|[^${mark}]*)${mark}){${index}}`;
    const isNamed = filled.some(({ text }, i) => (dates[i]?.end ?? 0) - (dates[i]?.start ?? 0) < text.length);
    const around = isNamed ? `[^\\d${mark}]*` : '[ "]*';
    // In quotes a day of the week may have a comma behind it.
    const front = isNamed ? `(?:"[^\\d"]*|${around})` : around;
    const own = form(first.text.slice(date.start, date.end));
    const when = `^${before}${front}(?<date>${own})${around}(?:${mark}|$)`;
    const { pattern } = date;
    return { from: 'header', when, pattern, line: first.line, evening: false, ...(year === undefined ? {} : { year }) };
  }
  return null;
}

/** The dates of all texts, each alone or beside the day of the week, in one form; `null` if one has none. */
function datesOf(texts: readonly string[]): readonly FoundStamp[] | null {
  for (const find of [findDate, findYearless]) {
    const found = texts.flatMap((text) => find(text) ?? []);
    const isAlike = found.every(({ pattern }) => pattern === found[0]?.pattern);
    const areAlone = found.every(({ start, end }, i) => {
      const text = texts[i] ?? '';
      return isDayAlone(text.slice(0, start)) && isDayAlone(text.slice(end));
    });
    if (found.length === texts.length && isAlike && areAlone) return found;
  }
  return dayAndMonth(texts);
}

/** Nothing, or the day of the week beside a date: `Sat 14 Nov 26`, `14.11.2026 (Sa)`. */
function isDayAlone(text: string): boolean {
  return !/\d/.test(text) && (text.match(/[\p{L}-]+/gu) ?? []).length <= 1;
}

const NUMBERS = /(?<!\d)(\d{1,2})([./-])(\d{1,2})\2?(?![\d])/u;

/** Two numbers in each text, of which that of the day has become one more. */
function dayAndMonth(texts: readonly string[]): readonly FoundStamp[] | null {
  const found = texts.map((text) => NUMBERS.exec(text));
  const read = found.flatMap((match, i) =>
    match === null || !isDayAlone(texts[i]?.replace(match[0], '') ?? '') ? [] : [match],
  );
  const [one, next] = read;
  if (read.length < texts.length || one === undefined || next === undefined) return null;
  const isLater = (place: number): boolean => Number(next[place]) === Number(one[place]) + 1;
  const isDayFirst = isLater(1) && one[3] === next[3];
  if (!isDayFirst && !(isLater(3) && one[1] === next[1])) return null;
  const [, , mark = ''] = one;
  const pattern = (isDayFirst ? ['{day}', '{month}'] : ['{month}', '{day}']).join(mark);
  return read.map((match) => {
    const isClosed = match[0].endsWith(mark);
    return { start: match.index, end: match.index + match[0].length - (isClosed ? 1 : 0), pattern };
  });
}
