import type { HeadLine } from '../time/base-lines.js';
import { splitRow } from '../layout/csv-layout.js';
import { severalTables, type FoundTable } from '../layout/several-tables.js';
import { newStamp, StampPattern } from '../../time/stamp.js';
import type { FieldLine } from '../kinds/field-line.js';
import type { StampGuess } from '../time/guess.js';
import { timeInCells, type TimeCells } from '../time/time-cells.js';
import { fieldReading, namedCells, type Row } from './field-reading.js';
import { withZone } from './zone-of-tables.js';
import type { LogLines } from './log-lines.js';
import type { Reading, TableReading } from './reading.js';
import { onOneNight } from './one-night.js';

/** Minimum fraction of a column's cells with a time in the form of another table. */
const ARE_TIMES = 0.9;
const NAME_LENGTH = 60;
/** Minimum fraction of rows with a time. */
const TIMED = 0.8;

interface Read {
  readonly table: FoundTable;
  readonly cells: TimeCells;
  readonly reading: Reading;
}

/** A log of several tables, each with its own columns and times; `null` if it is not one. */
export function tablesReading(log: LogLines): Reading | null {
  const { lines } = log;
  const found = severalTables(lines);
  if (found === null) return null;
  const taken = new Set(found.flatMap(({ rows }) => rows.map(({ number }) => number)));
  const loose = lines.filter(({ number }) => !taken.has(number));
  const rowsOf = new Map(found.map((table) => [table, rowsIn(table)] as const));
  const timeOf = (table: FoundTable, hasBase: boolean): TimeCells | null =>
    timeInCells(
      (rowsOf.get(table) ?? []).map(({ fields }) => fields),
      { ...log, hasBase },
    );
  const first = found.map((table) => ({ table, cells: timeOf(table, log.hasBase) }));
  // A row counter in one table is not a time if others state times.
  const isMixed =
    first.some(({ cells }) => counts(cells)) && first.some(({ cells }) => cells !== null && !counts(cells));
  const proved = !isMixed
    ? first
    : first.map(({ table, cells }) => ({ table, cells: counts(cells) ? timeOf(table, false) : cells }));
  // A table of a few rows is little evidence on its own: its times have the form of the others.
  const forms = proved.flatMap(({ cells }) => cells?.stamp ?? []);
  const read = proved.flatMap(({ table, cells }): Read[] => {
    const rows = rowsOf.get(table) ?? [];
    const times = cells ?? timeLike(rows, forms);
    if (times === null) return [];
    const all = [...loose, ...table.rows].sort((a, b) => a.number - b.number);
    const reading = fieldReading({ ...log, lines: all }, { kind: 'csv', ...table }, rows, times);
    const timed = reading.fieldLines.filter(({ atMs }) => !Number.isNaN(atMs));
    return timed.length === 0 || reading.stamp === null ? [] : [{ table, cells: times, reading }];
  });
  const all = found.reduce((sum, { rows }) => sum + rows.length, 0);
  const timed = read.reduce((sum, { reading }) => sum + reading.fieldLines.length, 0);
  return read.length < 2 || timed < TIMED * all ? null : together(read, loose);
}

function counts(cells: TimeCells | null): boolean {
  return cells?.stamp.pattern.includes('{elapsed') === true;
}

function rowsIn(table: FoundTable): Row[] {
  const { columns, delimiter } = table;
  return table.rows.flatMap(({ text, number }, i): Row[] => {
    // A row of units has no digits, and comes first.
    if (i === 0 && !/\d/.test(text)) return [];
    return [{ fields: namedCells(columns, splitRow(text, delimiter)), line: number, text }];
  });
}

/** The column with times in a form confirmed by another table; `null` if there is none. */
function timeLike(rows: readonly Row[], forms: readonly StampGuess[]): TimeCells | null {
  for (const path of new Set(rows.flatMap(({ fields }) => [...fields.keys()])))
    for (const stamp of forms) {
      const pattern = new StampPattern(stamp.pattern);
      const read = rows.filter(({ fields }) => {
        const bytes = Buffer.from(fields.get(path) ?? '');
        return pattern.readIn(stamp.at, bytes, 0, bytes.length, newStamp());
      });
      if (read.length >= ARE_TIMES * rows.length) return { paths: [path], isFirst: false, stamp };
    }
  return null;
}

/** The combined result of the tables, on one clock. */
function together(read: readonly Read[], loose: readonly HeadLine[]): Reading | null {
  const stamps = read.flatMap(({ reading }) => reading.stamp ?? []);
  // Trying one pattern after another cannot distinguish counters from times of day.
  const counting = read.filter(({ cells }) => counts(cells));
  const [first] = read;
  if (first === undefined || (counting.length > 0 && counting.length < stamps.length)) return null;
  const names = namesOf(read.map(({ table }) => table));
  const lines = onOneNight(read.map(({ reading }) => reading.fieldLines));
  const tables = read.map(({ table, cells }, i): TableReading => {
    const { rows: _, ...layout } = table;
    const name = names[i] ?? '';
    return { ...layout, name, timePaths: cells.paths, timeIsFirst: cells.isFirst, fieldLines: lines[i] ?? [] };
  });
  const others = new Set(read.flatMap(({ reading }) => reading.otherPatterns ?? []));
  return {
    ...first.reading,
    stamp: withZone(
      joinedStamp(stamps),
      read.map(({ reading }) => reading),
    ),
    timePaths: [...new Set(tables.flatMap(({ timePaths }) => timePaths))],
    fieldLines: tables.flatMap(({ fieldLines }): readonly FieldLine[] => fieldLines),
    unstamped: loose,
    loose,
    bases: read.find(({ reading }) => reading.bases.length > 0)?.reading.bases ?? [],
    doubtfulTimes: read.some(({ reading }) => reading.doubtfulTimes),
    ...(others.size === 0 ? {} : { otherPatterns: [...others] }),
    tables,
  };
}

/** The forms of all tables, longest first: the beginning of a longer one may look like a shorter. */
function joinedStamp(stamps: readonly StampGuess[]): StampGuess | null {
  const patterns = [...new Set(stamps.flatMap(({ pattern, more }) => [pattern, ...(more ?? [])]))].sort(
    (a, b) => b.length - a.length,
  );
  const [pattern, ...more] = patterns;
  const main = stamps.find((one) => one.pattern === pattern) ?? stamps[0];
  if (pattern === undefined || main === undefined) return null;
  const least = (of: (stamp: StampGuess) => number): number => Math.min(...stamps.map(of));
  return {
    ...main,
    pattern,
    ...(more.length === 0 ? {} : { more }),
    at: stamps.every(({ at }) => at === main.at) ? main.at : 'anywhere',
    coverage: least(({ coverage }) => coverage),
    forward: least(({ forward }) => forward),
    dayFirstAssumed: stamps.every(({ dayFirstAssumed }) => dayFirstAssumed),
  };
}

/** A name for each table: its heading, if short and unique. */
function namesOf(tables: readonly FoundTable[]): string[] {
  const headings = tables.map(({ heading }) => heading);
  return headings.map((heading, i) =>
    heading !== '' && heading.length <= NAME_LENGTH && headings.indexOf(heading) === headings.lastIndexOf(heading)
      ? heading
      : `table ${i + 1}`,
  );
}
