import { flattenRecord } from '../../records/flatten-record.js';
import { cellText } from '../../empty-cells.js';
import { cutAt } from '../../fixed-columns.js';
import { splitRow } from '../layout/csv-layout.js';
import type { Layout } from '../layout/layout.js';
import type { HeadLine } from '../time/base-lines.js';
import { clocksBeside, timesPlanned } from '../time/composed/running-beside.js';
import { otherTimes } from '../time/other-times.js';
import { RoughClock } from '../time/rough-clock.js';
import { settled } from '../time/settled-stamp.js';
import type { StampGuess } from '../time/guess.js';
import { withSecondForm } from '../time/second-form.js';
import { guessStamp } from '../time/stamp-guess.js';
import type { TimeCells } from '../time/time-cells.js';
import type { LogLines } from './log-lines.js';
import type { Reading } from './reading.js';

const STAMP_LINES = 500;

/** One line, or several joined lines, as a record or row. */
export interface Row {
  readonly fields: ReadonlyMap<string, string>;
  readonly line: number;
  readonly text: string;
}

/** A log of records or rows. */
export function fieldReading(log: LogLines, layout: Layout, all: readonly Row[], cellTime: TimeCells | null): Reading {
  const rows = withoutFields(all, cellTime?.without ?? []);
  const { lines, name } = log;
  const timePaths = cellTime?.paths ?? [];
  const isFirst = cellTime?.isFirst === true;
  const timeOf = ({ fields, text }: Row): string => {
    if (timePaths.length === 0) return text;
    const cells = timePaths.map((path) => fields.get(path) ?? '');
    return isFirst ? (cells.find((cell) => cell !== '') ?? '') : cells.join(' ');
  };
  // Records without a time set context for others: the date, or the base of elapsed times.
  const timed = rows.filter(({ fields }) =>
    isFirst ? timePaths.some((path) => fields.has(path)) : timePaths.every((path) => fields.has(path)),
  );
  const taken = new Set(timed.map(({ line }) => line));
  const times = timed.map((row) => ({ text: timeOf(row), line: row.line }));
  const inText = (): StampGuess | null =>
    guessStamp(
      rows.slice(0, STAMP_LINES).map(({ text }) => text),
      { ...log, stated: [] },
    );
  // Rows of two writers may have two time forms in one field.
  const guess =
    cellTime === null
      ? inText()
      : withSecondForm(
          cellTime.stamp,
          times.map(({ text }) => text),
        );
  // Entries without a time set context on single lines.
  const loose = lines.filter(({ number }) => !taken.has(number)).flatMap(singleLines);
  const { stamp, bases, doubtfulTimes } = settled(
    guess,
    times,
    [...lines.filter(({ number }) => taken.has(number)).map(titleOf), ...loose].sort((a, b) => a.number - b.number),
    name,
  );
  const clock = stamp === null ? null : RoughClock.of(stamp);
  const withClocks = timed.map(({ fields, line, text }) => {
    const found = clock?.read(timeOf({ fields, line, text })) ?? null;
    const behindMs = found === null ? 0 : (clock?.behindMs() ?? 0);
    return { fields, line, text, atMs: (found?.atMs ?? NaN) + behindMs, addedMs: found?.addedMs ?? 0, behindMs };
  });
  const read = withoutFields(withClocks, [
    ...clocksBeside(withClocks, timePaths),
    ...timesPlanned(withClocks, timePaths),
  ]);
  // A header may have a field of the same name, `time=local`, and state the date next to it.
  const unread = new Set(read.filter(({ atMs }) => Number.isNaN(atMs)).map(({ line }) => line));
  const heads = lines.filter(({ number }) => unread.has(number)).flatMap(singleLines);
  const unstamped = heads.length === 0 ? loose : [...loose, ...heads].sort((a, b) => a.number - b.number);
  // A count since the previous row is not a time form for other cells.
  const mayHaveOthers = stamp !== null && timePaths.length > 0 && stamp.since === undefined;
  const others = !mayHaveOthers ? null : otherTimes(read, stamp, timePaths, isFirst);
  return {
    layout,
    stamp,
    timePaths,
    timeIsFirst: isFirst,
    entries: null,
    messages: [],
    fieldLines: read.map(({ fields, line, atMs }) => {
      const timesMs = others?.byLine.get(line);
      return { fields, line, atMs, ...(timesMs === undefined ? {} : { timesMs }) };
    }),
    unstamped,
    loose: unstamped,
    bases,
    doubtfulTimes,
    ...(others === null ? {} : { otherPatterns: others.patterns }),
    counted: null,
    join: null,
  };
}

function withoutFields<T extends Row>(rows: readonly T[], paths: readonly string[]): readonly T[] {
  if (paths.length === 0) return rows;
  return rows.map((row) => ({ ...row, fields: new Map([...row.fields].filter(([path]) => !paths.includes(path))) }));
}

/** The first line of a multi-line record: text spanning two lines is not a time. */
function titleOf({ text, number }: HeadLine): HeadLine {
  return { text: text.split('\n')[0] ?? '', number };
}

function singleLines({ text, number }: HeadLine): HeadLine[] {
  return text.split('\n').map((line, i) => ({ text: line, number: number + i }));
}

/** The fields of a line according to its layout, `null` when it is not a record or row. @param index of the line */
export function fieldsOf(layout: Layout, text: string, index: number): ReadonlyMap<string, string> | null {
  if (layout.kind === 'records') return flattenRecord(layout.form, text);
  if (layout.kind === 'text' || index <= layout.headerIndex) return null;
  const cells = layout.starts === undefined ? splitRow(text, layout.delimiter) : cutAt(text, layout.starts);
  // Trailing empty cells may be omitted.
  if (cells.length > layout.columns.length || cells.length < 0.5 * layout.columns.length) return null;
  if (isRuled(cells) || isHeadAgain(cells, layout.columns)) return null;
  return namedCells(layout.columns, cells);
}

/** Whether a line only draws the borders of its cells: `|-----|------|`. */
export function isRuled(cells: readonly string[]): boolean {
  return cells.every((cell) => !/[\p{L}\p{N}]/u.test(cell)) && cells.some((cell) => /(.)\1{2}/u.test(cell));
}

/** Whether a row repeats the header, as on a new page, or is its second row, below the titles of groups. */
function isHeadAgain(cells: readonly string[], columns: readonly string[]): boolean {
  const isNamed = (cell: string, i: number): boolean => {
    const column = (columns[i] ?? '').trim();
    return cell === column || (cell !== '' && column.endsWith(` ${cell}`));
  };
  return cells.every(isNamed);
}

/** The cells of a row by column name, without empty ones. */
export function namedCells(columns: readonly string[], cells: readonly string[]): ReadonlyMap<string, string> {
  return new Map(
    columns.flatMap((name, i) => {
      const cell = cellText(cells[i] ?? '');
      return name === '' || cell === '' ? [] : [[name, cell] as const];
    }),
  );
}
