import { BLANKS } from '../../blank-columns.js';
import { typeOf } from '../kinds/values.js';
import { IN_BRACKETS, plainWords } from '../lexicon/plain-words.js';
import { findDate } from '../time/date-shapes.js';
import type { HeadLine } from '../time/base-lines.js';
import { continuedTables } from './continued-tables.js';
import { DELIMITERS, isHeader, splitRow, type CsvLayout } from './csv-layout.js';

/** One of several tables in a log. */
export interface FoundTable extends CsvLayout {
  /** The line above its header row, without marks; empty if there is none. */
  readonly heading: string;
  /** That whole line, if another table has the same columns and nothing else distinguishes the two. */
  readonly below: string | null;
  readonly rows: readonly HeadLine[];
}

/** Minimum number of columns; commas separate sentences as well. */
const MIN_COLUMNS = 2;
const MIN_COMMAS = 3;
/** How many lines below a header row are examined, and how many of them must be rows. */
const BELOW = 5;
const MIN_ROWS = 2;
/** Rows may omit trailing empty cells. */
const SHORTEST = 0.5;
/** Minimum fraction of lines below the first header row that are rows of one of the tables. */
const COVERED = 0.8;
const MOST_TABLES = 20;
const DATE_OR_TIME = /\d{1,2}[:.h]\d{2}|\d{4}/;
const CLOCK = /\d{1,2}[:.h]\d{2}/;
/** Maximum fraction of a summary's lines that have a time. */
const SUMMED = 0.5;
const DIVIDED: Readonly<Record<string, RegExp>> = { [BLANKS]: /\S(?:\s{2,}|\t)\S/ };

interface Head {
  readonly index: number;
  readonly columns: readonly string[];
}

/** The tables that follow one another in a log, each under its own header row; `null` if it has none. */
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
  if (first === undefined || heads.length < 2) return null;
  const tables = new Map<string, { readonly head: Head; heading: string; rows: HeadLine[] }>();
  const parts = heads.map(({ index, columns }, i) => {
    const rows = withoutSummary(lines.slice(index, heads[i + 1]?.index ?? lines.length), delimiter)
      .slice(1)
      .filter(({ text }) => fits(splitRow(text, delimiter), columns.length));
    return { columns, heading: headingOf(lines, index, delimiter), rows };
  });
  const owners = continuedTables(parts, delimiter);
  const covered = parts.reduce((sum, { rows }) => sum + rows.length, 0);
  heads.forEach((head, i) => {
    const [part, owner] = [parts[i], parts[owners[i] ?? i]];
    if (part === undefined || owner === undefined) return;
    // A header row may be repeated, as on a new page, or under another heading.
    const name = [...head.columns, withoutValues(owner.heading)].join('\0');
    const known = tables.get(name);
    if (known === undefined) tables.set(name, { head, heading: owner.heading, rows: [...part.rows] });
    else {
      known.rows = [...known.rows, ...part.rows];
      // Rows below several headings are about none of them.
      if (withoutValues(part.heading) !== withoutValues(known.heading)) known.heading = '';
    }
  });
  if (tables.size < 2 || tables.size > MOST_TABLES) return null;
  if (covered < COVERED * (lines.length - first.index - heads.length)) return null;
  const all = [...tables.values()];
  return all.map(({ head: { index, columns }, heading, rows }) => {
    const isTwin = all.filter(({ head }) => head.columns.join('\0') === columns.join('\0')).length > 1;
    const above = lines[headingIndex(lines, index, delimiter)]?.text.trim() ?? null;
    const below = isTwin && withoutValues(heading) !== '' ? above : null;
    return { delimiter, columns, headerIndex: 0, heading, below, rows };
  });
}

/** The part of a heading that distinguishes tables with the same columns: no number, date or object. */
function withoutValues(heading: string): string {
  if (findDate(heading) !== null || typeOf([heading]) !== 'text') return '';
  return plainWords(heading.replace(/\d+/g, ' ')).trim();
}

/** A table from its header row to an empty line followed by a heading over lines that mostly have no times. */
function withoutSummary(lines: readonly HeadLine[], delimiter: string): readonly HeadLine[] {
  const cellsOf = ({ text }: HeadLine): number => filled(splitRow(text, delimiter)).length;
  const end = lines.findIndex((line, i) => {
    const above = lines[i - 1];
    if (above === undefined || (line.number === above.number + 1 && cellsOf(above) > 0) || cellsOf(line) !== 1)
      return false;
    const below = lines.slice(i + 1);
    return below.filter(({ text }) => CLOCK.test(text)).length < SUMMED * below.length;
  });
  return end < 0 ? lines : lines.slice(0, end);
}

function headsOf(lines: readonly HeadLine[], delimiter: string): Head[] {
  const heads: Head[] = [];
  const least = delimiter === ',' ? MIN_COMMAS : MIN_COLUMNS;
  lines.forEach(({ text }, index) => {
    if (!(DIVIDED[delimiter]?.test(text) ?? text.includes(delimiter))) return;
    if (DATE_OR_TIME.test(text.replace(IN_BRACKETS, ''))) return;
    // A comma inside a number divides no names.
    if (delimiter === ',' && /\d,\d/.test(text)) return;
    const columns = filled(splitRow(text, delimiter));
    // A row may begin and end with a bar.
    const names = columns[0] === '' ? columns.slice(1) : columns;
    if (names.length < least || !isHeader(names) || !hasRows(lines, index, delimiter, columns.length)) return;
    if (!isApart(lines, index, delimiter, heads.at(-1))) return;
    heads.push({ index, columns });
  });
  return heads;
}

/** Whether rows follow, each with a date or a time. */
function hasRows(lines: readonly HeadLine[], index: number, delimiter: string, width: number): boolean {
  const below = lines.slice(index + 1, index + 1 + BELOW);
  const rows = below.filter(({ text }) => DATE_OR_TIME.test(text) && fits(splitRow(text, delimiter), width));
  // A table of rare events may have a single row, up to the next empty line.
  const end = below.findIndex(({ number }, i) => number !== (lines[index]?.number ?? 0) + i + 1);
  return rows.length >= Math.min(MIN_ROWS, end < 0 ? below.length : end) && rows.length > 0;
}

/** Whether a line is not a row of the table above it: a different width, or an empty line or a heading in between. */
function isApart(lines: readonly HeadLine[], index: number, delimiter: string, above: Head | undefined): boolean {
  const [line, before] = [lines[index], lines[index - 1]];
  if (above === undefined || line === undefined || before === undefined) return true;
  if (line.number > before.number + 1) return true;
  const width = above.columns.length;
  return [line, before].some(({ text }) => filled(splitRow(text, delimiter)).length !== width);
}

function fits(cells: readonly string[], width: number): boolean {
  const { length } = filled(cells);
  return length <= width && cells.length >= SHORTEST * width && length > 1;
}

/** The cells without trailing empty ones: a spreadsheet pads all rows to the widest. */
function filled(cells: readonly string[]): readonly string[] {
  return cells.slice(0, cells.findLastIndex((cell) => cell !== '') + 1);
}

/** The name of the table in the line above its header row. */
function headingOf(lines: readonly HeadLine[], index: number, delimiter: string): string {
  const text = lines[headingIndex(lines, index, delimiter)]?.text ?? '';
  const cells = splitRow(text, delimiter).filter((cell) => cell !== '');
  if (cells.length !== 1 && !isMarked(text)) return '';
  return (cells.length === 1 ? (cells[0] ?? '') : text).replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N})\]]+$/gu, '');
}

/** Where the heading stands: right above the header row, or above a sentence or two that explain the table. */
function headingIndex(lines: readonly HeadLine[], index: number, delimiter: string): number {
  for (let i = index - 1; i >= Math.max(0, index - HEADING_WITHIN); i--) {
    const text = lines[i]?.text.trim() ?? '';
    if (isMarked(text)) return i;
    if (filled(splitRow(text, delimiter)).length !== 1 || !isSentence(text)) break;
  }
  return index - 1;
}

const HEADING_WITHIN = 3;
const isMarked = (text: string): boolean => /^\s*[#=*[]/.test(text);
const isSentence = (text: string): boolean => /\p{L}{2}[.)!]$/u.test(text) && text.split(' ').length >= SENTENCE;
const SENTENCE = 5;
