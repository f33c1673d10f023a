import { BLANKS } from '../../blank-columns.js';
import type { HeadLine } from '../time/base-lines.js';
import { DELIMITERS, isHeader, splitRow, type CsvLayout } from './csv-layout.js';

/** One of several tables in a log. */
export interface FoundTable extends CsvLayout {
  /** The line above its header row, without marks; empty where there is none. */
  readonly heading: string;
  readonly rows: readonly HeadLine[];
}

/** Columns that a table has at least; commas divide sentences as well. */
const MIN_COLUMNS = 2;
const MIN_COMMAS = 3;
/** Lines below a header row, of which so many are rows. */
const BELOW = 5;
const MIN_ROWS = 2;
/** Rows may leave out the empty cells at their ends. */
const SHORTEST = 0.5;
/** Lines that are rows of one of the tables, of those below the first header row. */
const COVERED = 0.8;
const MOST_TABLES = 20;
const DATE_OR_TIME = /\d{1,2}[:.]\d{2}|\d{4}/;
const DIVIDED: Readonly<Record<string, RegExp>> = { [BLANKS]: /\S(?:\s{2,}|\t)\S/ };

interface Head {
  readonly index: number;
  readonly columns: readonly string[];
}

/** The tables that stand one below the other in a log, each under a header row of its own; `null` where it has none. */
export function severalTables(lines: readonly HeadLine[]): readonly FoundTable[] | null {
  for (const delimiter of [...DELIMITERS, BLANKS]) {
    const found = tablesBy(lines, delimiter);
    if (found !== null) return found;
  }
  return null;
}

function tablesBy(lines: readonly HeadLine[], delimiter: string): readonly FoundTable[] | null {
  const heads = headsOf(lines, delimiter);
  const [first] = heads;
  const tables = new Map<string, { readonly head: Head; rows: HeadLine[] }>();
  let covered = 0;
  heads.forEach((head, i) => {
    const { index, columns } = head;
    const own = lines
      .slice(index + 1, heads[i + 1]?.index ?? lines.length)
      .filter(({ text }) => fits(splitRow(text, delimiter), columns.length));
    covered += own.length;
    // A header row may come again, as on a new page.
    const name = columns.join('\0');
    const known = tables.get(name);
    if (known === undefined) tables.set(name, { head, rows: own });
    else known.rows = [...known.rows, ...own];
  });
  if (first === undefined || tables.size < 2 || tables.size > MOST_TABLES) return null;
  if (covered < COVERED * (lines.length - first.index - heads.length)) return null;
  return [...tables.values()].map(({ head: { index, columns }, rows }) => ({
    delimiter,
    columns,
    headerIndex: 0,
    heading: headingOf(lines, index, delimiter),
    rows,
  }));
}

function headsOf(lines: readonly HeadLine[], delimiter: string): Head[] {
  const heads: Head[] = [];
  const least = delimiter === ',' ? MIN_COMMAS : MIN_COLUMNS;
  lines.forEach(({ text }, index) => {
    if (DATE_OR_TIME.test(text) || !(DIVIDED[delimiter]?.test(text) ?? text.includes(delimiter))) return;
    const columns = splitRow(text, delimiter);
    if (columns.length < least || !isHeader(columns) || !hasRows(lines, index, delimiter, columns.length)) return;
    if (!isApart(lines, index, delimiter, heads.at(-1))) return;
    heads.push({ index, columns });
  });
  return heads;
}

/** Whether rows stand below, each with a date or a time. */
function hasRows(lines: readonly HeadLine[], index: number, delimiter: string, width: number): boolean {
  const below = lines.slice(index + 1, index + 1 + BELOW).map(({ text }) => text);
  const rows = below.filter((text) => DATE_OR_TIME.test(text) && fits(splitRow(text, delimiter), width));
  return rows.length >= Math.min(MIN_ROWS, lines.length - index - 1) && rows.length > 0;
}

/** Whether a line is no row of the table above it: another width, or an empty line between, or a heading. */
function isApart(lines: readonly HeadLine[], index: number, delimiter: string, above: Head | undefined): boolean {
  const [line, before] = [lines[index], lines[index - 1]];
  if (above === undefined || line === undefined || before === undefined) return true;
  if (line.number > before.number + 1) return true;
  const width = above.columns.length;
  return splitRow(line.text, delimiter).length !== width || splitRow(before.text, delimiter).length !== width;
}

function fits({ length }: readonly string[], width: number): boolean {
  return length <= width && length >= SHORTEST * width && length > 1;
}

/** What the line above a header row calls the table. */
function headingOf(lines: readonly HeadLine[], index: number, delimiter: string): string {
  const text = lines[index - 1]?.text ?? '';
  const cells = splitRow(text, delimiter).filter((cell) => cell !== '');
  if (cells.length !== 1 && !/^\s*[^\p{L}\p{N}\s]/u.test(text)) return '';
  return (cells.length === 1 ? (cells[0] ?? '') : text).replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N})\]]+$/gu, '');
}
