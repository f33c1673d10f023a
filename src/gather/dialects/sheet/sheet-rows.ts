import type { DocumentLines } from '../../lines/document-buffer.js';
import { remarksBetween } from './remarks-between.js';
import { remarksInCells } from './remarks-in-cells.js';
import { filledCells, linesOf, sheetLines, type SheetTable } from './sheet-lines.js';
import { setByBlanks } from './set-by-blanks.js';
import { sideBySide } from './side-by-side.js';
import { turnedBlocks } from './turned-blocks.js';

/** A sheet kept by hand is smaller. */
const MAX_BYTES = 8 * 2 ** 20;
const MAX_LINES = 20_000;
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
  const sheet = sheetLines(lines);
  const turned = turnedBlocks(sheet);
  const tables: SheetTable[] = [...(turned === null ? [] : [turned]), ...(sideBySide(sheet) ?? [])];
  // Aligned rows need no transposition, except for the text between them.
  const isPlain = tables.length === 0;
  const set = isPlain && sheet.every(({ cells }) => cells.length === 1) ? setByBlanks(sheet) : null;
  if (set !== null) tables.push(set);
  if (tables.length === 0) {
    const inCells = remarksInCells(sheet);
    if (inCells === null) return null;
    // A title or a date in some column is a line of its own.
    const rest = inCells.rest.map((line) => (filledCells(line).length > 1 ? line.cells : filledCells(line)));
    return [...rest.map((cells) => cells.join('\t').trimEnd()), ...linesOf(inCells.table)];
  }
  const remarks = remarksBetween(sheet);
  if (isPlain && (remarks === null || remarks.rows.length < BETWEEN * (set?.rows.length ?? 0))) return null;
  if (remarks !== null) tables.push(remarks);
  const rest = sheet.flatMap(({ isTaken, cells }) => (isTaken ? [] : [cells.join('\t').trimEnd()]));
  return [...rest, ...tables.flatMap(linesOf)];
}

/** Turns a sheet into rows. */
export function sheetText(): DocumentLines {
  return {
    maxBytes: MAX_BYTES,
    mayBegin: () => true,
    linesOf: (text) => sheetRows(text.split(/\r\n?|\n/)),
  };
}
