import { CLOCK, CLOCK_CELL, type SheetLine } from './sheet-lines.js';

/** Rows that go on below, at least, and the fraction of all that they are. */
const MIN_CONTINUED = 8;
const SHARE = 0.2;
const MIN_COLUMNS = 3;
const RULE = /^[\s\-=_+|~*.·─━═]+$/u;

/**
 * Rows that go on in the lines below, whose first cells are empty and one of whose others says more: each becomes one
 * row, its parts set apart by a comma. `null` if a sheet has hardly any.
 */
export function withoutContinuations(sheet: readonly SheetLine[]): SheetLine[] | null {
  const whole: { line: SheetLine; cells: string[] }[] = [];
  let continued = 0;
  let rows = 0;
  let isBelow = false;
  for (const line of sheet) {
    if (RULE.test(line.text)) continue;
    const filled = line.cells.flatMap((cell, i) => (cell === '' ? [] : [i]));
    const [only = 0] = filled;
    const isMore = filled.length === 1 && only > 0 && !CLOCK_CELL.test(line.cells[only] ?? '');
    const above = whole.at(-1);
    if (isMore && isBelow && above !== undefined && (above.cells[only] ?? '') !== '') {
      above.cells[only] = `${above.cells[only] ?? ''}, ${line.cells[only] ?? ''}`;
      continued++;
      continue;
    }
    isBelow = line.cells.length >= MIN_COLUMNS && CLOCK.test(line.cells[0] ?? '');
    if (isBelow) rows++;
    whole.push({ line, cells: [...line.cells] });
  }
  if (continued < MIN_CONTINUED || continued < SHARE * rows) return null;
  return whole.map(({ line: { text }, cells }) => ({ text, cells, isTaken: false }));
}
