import type { DocumentLines } from '../../lines/document-buffer.js';
import { remarksBetween } from './remarks-between.js';
import { remarksInCells } from './remarks-in-cells.js';
import { increment } from '../../../model/index.js';
import {
  filledCells,
  isDitto,
  linesOf,
  sheetLines,
  type SheetLine,
  type SheetTable,
  withoutDittos,
} from './sheet-lines.js';
import { alignedLines } from './aligned-cells.js';
import { besideStrokes } from './beside-strokes.js';
import { withoutContinuations } from './continued-rows.js';
import { formsIn } from './forms.js';
import { listedCards } from './listed-cards.js';
import { setByBlanks } from './set-by-blanks.js';
import { sideBySide } from './side-by-side.js';
import { stepsInColumns } from './steps-in-columns.js';
import { titledTables } from './titled-tables.js';
import { turnedBlocks } from './turned-blocks.js';
import { wordsBesideNumbers } from './words-beside-numbers.js';

/** A sheet kept by hand is smaller. */
const MAX_BYTES = 8 * 2 ** 20;
const MAX_LINES = 20_000;
/** Rows of tables beside each other, at least. */
const MIN_BESIDE = 10;
/** Remarks between rows, of these, from which on they are more than notes. */
const BETWEEN = 0.1;

/**
 * A sheet kept by hand as plain tables in sequence, with tab-separated cells: side-by-side tables, blocks whose columns
 * are things, and remarks with times between rows become rows; everything else stays in place. `null` if a text
 * contains nothing of the kind. Runs in linear time.
 *
 * @param lines of the whole text
 */
export function sheetRows(lines: readonly string[]): string[] | null {
  if (lines.length > MAX_LINES) return null;
  const beside = besideStrokes(lines);
  const blocks = beside === null ? null : alignedLines(beside);
  const titled = blocks === null ? [] : titledTables(blocks);
  if (blocks !== null && titled.reduce((sum, { rows }) => sum + rows.length, 0) >= MIN_BESIDE)
    return tabbed(blocks, titled);
  const cards = listedCards(lines);
  if (cards !== null) return tabbed(lines.filter((line) => /^\S.*: *\S/.test(line)).map(asLine), [cards]);
  const divided = sheetLines(lines);
  if (divided.every(({ cells }) => cells.length === 1)) return alignedRows(lines) ?? dividedRows(divided);
  const whole = withoutContinuations(divided);
  return whole === null ? dividedRows(divided) : (dividedRows(whole) ?? plainRows(whole));
}

/** The lines of a sheet that is one table. */
function plainRows(sheet: readonly SheetLine[]): string[] {
  return sheet.map((line) => {
    const filled = filledCells(line);
    return (filled.length > 1 ? line.cells : filled).map((cell) => cell.replaceAll('\t', ' ')).join('\t');
  });
}

const asLine = (text: string): SheetLine => ({ text, cells: [text.trim()], isTaken: false });

/** The plain tables of a text aligned by blanks whose blocks are turned, or whose cells say `as above`. */
function alignedRows(lines: readonly string[]): string[] | null {
  const text = lines.map(asLine);
  const forms = formsIn(text);
  if (forms !== null) return tabbed(text, [forms]);
  const aligned = alignedLines(lines);
  if (aligned === null) return null;
  const whole = withoutContinuations(aligned);
  const turned = turnedBlocks(whole ?? aligned);
  if (turned.length > 0) return tabbed(whole ?? aligned, turned);
  return filledIn(whole ?? aligned) ?? (whole === null ? null : plainRows(whole));
}

/** The lines that are in no table, and behind them the tables. */
function tabbed(sheet: readonly SheetLine[], tables: readonly SheetTable[]): string[] {
  const rest = sheet.flatMap(({ isTaken, cells }) => (isTaken ? [] : [cells.join('\t').trimEnd()]));
  const apart = tables.map(wordsBesideNumbers).flatMap((table) => {
    const steps = stepsInColumns(table);
    return steps === null ? [table] : [steps.rest, steps.steps];
  });
  return [...rest, ...apart.flatMap(linesOf)];
}

function dividedRows(sheet: readonly SheetLine[]): string[] | null {
  const turned = turnedBlocks(sheet);
  const tables: SheetTable[] = [...turned, ...(sideBySide(sheet) ?? [])];
  // Aligned rows need no transposition, except for the text between them.
  const isPlain = tables.length === 0;
  const set = isPlain && sheet.every(({ cells }) => cells.length === 1) ? setByBlanks(sheet) : null;
  if (set !== null) tables.push(set);
  if (tables.length === 0) {
    const inCells = remarksInCells(sheet);
    if (inCells === null) return filledIn(sheet);
    // A title or a date in some column is a line of its own.
    const rest = inCells.rest.map((line) => (filledCells(line).length > 1 ? line.cells : filledCells(line)));
    return [...rest.map((cells) => cells.join('\t').trimEnd()), ...linesOf(inCells.table)];
  }
  const remarks = remarksBetween(sheet);
  if (isPlain && (remarks === null || remarks.rows.length < BETWEEN * (set?.rows.length ?? 0))) return null;
  if (remarks !== null) tables.push(remarks);
  return tabbed(sheet, tables);
}

/** Cells of one column that say so, from which on a sheet has marks for `as above`. */
const MIN_DITTOS = 5;
const MIN_CELLS = 3;

/** The lines of a plain table with the value above in place of marks for it; `null` if it has none. */
function filledIn(sheet: readonly SheetLine[]): string[] | null {
  const dittos = new Map<number, number>();
  for (const { cells } of sheet)
    if (cells.length >= MIN_CELLS) cells.forEach((cell, i) => isDitto(cell) && increment(dittos, i));
  if (Math.max(0, ...dittos.values()) < MIN_DITTOS) return null;
  const width = Math.max(...sheet.map(({ cells }) => cells.length));
  const rows = withoutDittos(sheet.map(({ cells }) => (cells.length >= MIN_CELLS ? cells : [])));
  return sheet.map((line, i) => {
    const row = rows[i] ?? [];
    const isRow = row.length > 0 && filledCells(line).length > 1;
    // Rows may leave out empty cells at their ends.
    const cells = isRow ? [...row, ...new Array<string>(width - row.length).fill('')] : filledCells(line);
    return cells.map((cell) => cell.replaceAll('\t', ' ')).join('\t');
  });
}

/** Whether rows of a sheet say `as above`: then they are only complete without such marks. */
export function hasDittos(lines: readonly string[]): boolean {
  const cells = new Map<number, number>();
  if (lines.length > MAX_LINES) return false;
  const divided = sheetLines(lines);
  const sheet = divided.every((line) => line.cells.length === 1) ? (alignedLines(lines) ?? divided) : divided;
  for (const line of sheet) line.cells.forEach((cell, i) => isDitto(cell) && increment(cells, i));
  return Math.max(0, ...cells.values()) >= MIN_DITTOS;
}

/** Turns a sheet into rows. */
export function sheetText(): DocumentLines {
  return {
    maxBytes: MAX_BYTES,
    mayBegin: () => true,
    linesOf: (text) => sheetRows(text.split(/\r\n?|\n/)),
  };
}
