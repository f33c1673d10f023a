import { increment } from '../../../model/index.js';
import { remark } from './remarks-between.js';
import { CLOCK, CLOCK_CELL, type SheetLine, type SheetTable } from './sheet-lines.js';

/** What sets the remarks of a cell apart. */
const APART = /\s+(?:[/|•·+]|[-–—])\s+|\s*[;/|•]\s+/;
/** Minimum number of cells with two or more remarks that state a time, and their fraction of the lines. */
const MIN_CELLS = 5;
const SHARE = 0.05;
const MIN_COLUMNS = 3;

/**
 * The remarks in a column of a table that state when things were done, several to a cell, `ready 21:04 / dither
 * 21:05-21:06`: a table of their own, as of those between rows. What a cell says besides stays in its row. `null` where
 * there are but few.
 */
export function remarksInCells(lines: readonly SheetLine[]): { table: SheetTable; rest: SheetLine[] } | null {
  const counts = new Map<number, number>();
  for (const { cells } of lines.filter((line) => isRow(line)))
    cells.forEach((cell, i) => {
      if (partsOf(cell).filter(isTimed).length > 1) increment(counts, i);
    });
  const [best] = [...counts].sort((a, b) => b[1] - a[1]);
  if (best === undefined || best[1] < Math.max(MIN_CELLS, SHARE * lines.length)) return null;
  const [column] = best;
  const rows: string[][] = [];
  const rest = lines.map((line) => {
    if (!isRow(line)) return line;
    const cell = line.cells[column] ?? '';
    const kept = partsOf(cell).filter((part) => {
      const said = CLOCK_CELL.test(part) ? null : remark(part);
      if (said !== null) rows.push(said);
      return said === null;
    });
    return { ...line, cells: line.cells.map((own, i) => (i === column ? kept.join(' / ') : own)) };
  });
  return { table: { heading: 'remarks', columns: ['from', 'until', 'remark'], rows }, rest };
}

/** Lines that nothing divides are no rows. */
const isRow = ({ cells }: SheetLine): boolean => cells.length >= MIN_COLUMNS;

function partsOf(cell: string): string[] {
  return CLOCK.test(cell) ? cell.split(APART).filter((part) => part !== '') : [cell];
}

const isTimed = (part: string): boolean => CLOCK.test(part) && /\p{L}{2}/u.test(part);
