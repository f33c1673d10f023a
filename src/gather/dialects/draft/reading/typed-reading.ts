import { splitRow } from '../layout/csv-layout.js';
import { typedTables, type TypedTable } from '../layout/typed-rows.js';
import type { Layout } from '../layout/layout.js';
import { timeInCells, type TimeCells } from '../time/time-cells.js';
import { fieldReading, namedCells, type Row } from './field-reading.js';
import { newStamp, StampPattern } from '../../time/stamp.js';
import type { LogLines } from './log-lines.js';
import type { Reading, TableReading } from './reading.js';

/** Minimum fraction of a type's rows that have a cell for it to be their time. */
const TIMED = 0.9;

/**
 * A log of rows of several types that take turns, each with fields of its own, on one clock; `null` if it is none.
 */
export function typedReading(log: LogLines, layout: Layout): Reading | null {
  const { lines } = log;
  const typed = typedTables(lines, layout.kind === 'csv' && layout.headerIndex >= 0);
  if (typed === null) return null;
  const { tables: found, naming } = typed;
  const ofTables = found.map((table) => ({ table, rows: rowsIn(table) }));
  const largest = [...ofTables].sort((a, b) => b.rows.length - a.rows.length);
  const cells = largest
    .map(({ rows }) =>
      timeInCells(
        rows.map(({ fields }) => fields),
        log,
      ),
    )
    .find((one) => one !== null && !one.isFirst);
  if (cells === undefined || cells === null) return null;
  const timed = ofTables.flatMap(({ table, rows }) => {
    const paths = timesOf(table, rows, cells, found);
    return paths === null ? [] : [{ table, rows, paths }];
  });
  if (timed.length < 2) return null;
  // One clock for all rows, in the order of the log: the time has one name, whatever each type calls it.
  const rows = timed
    .flatMap((own) => own.rows.map((row) => ({ row: withTime(row, own.paths, cells.paths), own })))
    .sort((a, b) => a.row.line - b.row.line);
  const reading = fieldReading(
    log,
    { kind: 'csv', ...(found[0] ?? { delimiter: ',', columns: [], headerIndex: 0 }) },
    rows.map(({ row }) => row),
    cells,
  );
  const read = new Map(reading.fieldLines.map((line) => [line.line, line] as const));
  const tables = timed.map(({ table, rows: own, paths }): TableReading => {
    const { rows: _, code, only, ...layout } = table;
    const fieldLines = own.flatMap(({ line, fields }) => {
      const one = read.get(line);
      return one === undefined ? [] : [{ ...one, fields }];
    });
    return { ...layout, only, name: code, timePaths: paths, timeIsFirst: false, fieldLines };
  });
  return {
    ...reading,
    timePaths: [...new Set(tables.flatMap(({ timePaths }) => timePaths))],
    fieldLines: tables.flatMap(({ fieldLines }) => fieldLines).sort((a, b) => a.line - b.line),
    unstamped: reading.unstamped.filter(({ number }) => !naming.has(number)),
    loose: reading.loose.filter(({ number }) => !naming.has(number)),
    naming: new Set(lines.flatMap(({ text, number }) => (naming.has(number) ? [text] : []))),
    tables,
  };
}

function rowsIn({ columns, delimiter, rows }: TypedTable): Row[] {
  return rows.map(({ text, number }) => ({
    fields: namedCells(columns, splitRow(text, delimiter)),
    line: number,
    text,
  }));
}

/** The time cells of a type: those of the same names, or the ones at the same place. */
function timesOf(
  table: TypedTable,
  rows: readonly Row[],
  { paths, stamp }: TimeCells,
  all: readonly TypedTable[],
): readonly string[] | null {
  const pattern = new StampPattern(stamp.pattern);
  const isTimed = (own: readonly string[]): boolean => {
    const texts = rows.map(({ fields }) => Buffer.from(own.map((path) => fields.get(path) ?? '').join(' ')));
    return (
      texts.filter((text) => pattern.readIn(stamp.at, text, 0, text.length, newStamp())).length >= TIMED * rows.length
    );
  };
  if (paths.every((path) => table.columns.includes(path)) && isTimed(paths)) return paths;
  const like = all.find(({ columns }) => paths.every((path) => columns.includes(path)));
  const own = paths.map((path) => table.columns[like?.columns.indexOf(path) ?? -1] ?? '');
  return own.every((path) => path !== '') && isTimed(own) ? own : null;
}

function withTime(row: Row, own: readonly string[], named: readonly string[]): Row {
  const fields = new Map(row.fields);
  own.forEach((path, i) => fields.set(named[i] ?? path, row.fields.get(path) ?? ''));
  return { ...row, fields };
}
