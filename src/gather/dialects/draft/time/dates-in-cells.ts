import { BLANKS } from '../../blank-columns.js';
import { escaped } from '../escaped.js';
import type { Reading } from '../reading/reading.js';
import type { DateSource } from '../report.js';
import { form } from './base-lines.js';
import { findDate } from './date-shapes.js';

/** Minimum number of rows with a date in the column, and the latest position of the first. */
const MOST_DAYS = 6;
const MOST_FILLED = 0.3;
const FIRST_ROWS = 2;

/** The column of a table that states the date where a day begins, and leaves it empty below. */
export function datesInCells({ layout, fieldLines, timePaths, tables }: Reading): DateSource | null {
  if (layout.kind !== 'csv' || tables !== undefined || layout.delimiter === BLANKS || layout.starts !== undefined)
    return null;
  const { columns, delimiter } = layout;
  for (const [index, column] of columns.entries()) {
    if (column === '' || timePaths.includes(column)) continue;
    const filled = fieldLines.flatMap(({ fields, line }) => {
      const text = fields.get(column) ?? '';
      // Ditto marks.
      return !/\d/.test(text) ? [] : [{ text, line, date: findDate(text) }];
    });
    const [first] = filled;
    const isFirst = fieldLines.slice(0, FIRST_ROWS).some(({ line }) => line === first?.line);
    if (first?.date == null || !isFirst || filled.length > Math.min(MOST_DAYS, MOST_FILLED * fieldLines.length))
      continue;
    const { pattern } = first.date;
    if (!filled.every(({ text, date }) => date?.pattern === pattern && date.start === 0 && date.end === text.length))
      continue;
    const mark = delimiter === '\t' ? '\\t' : escaped(delimiter);
    const before = index === 0 ? '' : `(?:[^${mark}]*${mark}){${index}}`;
    const when = `^${before}\\s*(?<date>${form(first.text)})\\s*(?:${mark}|$)`;
    return { from: 'header', when, pattern, line: first.line, evening: false };
  }
  return null;
}
