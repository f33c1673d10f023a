import { groupBy } from '../../../model/index.js';
import { CLOCK, CLOCK_CELL, filledCells, type SheetLine, type SheetTable } from './sheet-lines.js';

const MIN_COLUMNS = 3;
/** A time with a mark behind it that a legend explains. */
const MARKED = new RegExp(`^(${CLOCK.source})\\s*([*†‡!?x×])$`);

interface Titled {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/**
 * The tables of blocks that each have a title, column names and rows with times: those of the same columns are one
 * table, whose first column `side` has the title. Their lines are marked as taken.
 */
export function titledTables(sheet: readonly SheetLine[]): SheetTable[] {
  const titled: Titled[] = [];
  for (let i = 0; i < sheet.length; ) {
    let end = i;
    while (end < sheet.length && sheet[end]?.text.trim() !== '') end++;
    const own = tableOf(sheet.slice(i, end));
    if (own !== null) titled.push(own);
    i = end + 1;
  }
  return [...groupBy(titled, ({ columns }) => columns.join('\0')).values()].map((same) => {
    const [{ title, columns } = { title: '', columns: [] }] = same;
    if (same.length === 1) return withMarks(withoutUnnamed({ heading: title, columns, rows: same[0]?.rows ?? [] }));
    const rows = same.flatMap((one) => one.rows.map((row) => [one.title, ...row]));
    return withMarks(
      withoutUnnamed({ heading: same.map((one) => one.title).join(', '), columns: ['side', ...columns], rows }),
    );
  });
}

function tableOf(block: readonly SheetLine[]): Titled | null {
  const head = block.findIndex((line) => filledCells(line).length >= MIN_COLUMNS && !/\d/.test(line.text));
  const names = block[head]?.cells ?? [];
  const rows = block.slice(head + 1).filter(({ cells }) => cells.some((cell) => CLOCK.test(cell)));
  if (head < 0 || rows.length === 0 || new Set(names.filter((name) => name !== '')).size < MIN_COLUMNS) return null;
  const title = block.slice(0, head).find((line) => filledCells(line).length === 1);
  for (const line of [...block.slice(0, head + 1), ...rows]) line.isTaken = true;
  return {
    title: title === undefined ? '' : (filledCells(title)[0] ?? ''),
    columns: names,
    rows: rows.map(({ cells }) => cells),
  };
}

/** The table without columns that have neither a name nor anything in them, such as an indent. */
function withoutUnnamed(table: SheetTable): SheetTable {
  const isKept = table.columns.map((name, i) => name !== '' || table.rows.some((row) => (row[i] ?? '') !== ''));
  const kept = (cells: readonly string[]): string[] => cells.filter((_, i) => isKept[i]);
  return { ...table, columns: kept(table.columns), rows: table.rows.map(kept) };
}

/** The table with marks behind times in a column of their own. */
function withMarks(table: SheetTable): SheetTable {
  const { columns, rows } = table;
  if (!rows.some((row) => row.some((cell) => MARKED.test(cell)))) return table;
  const apart = rows.map((row) => {
    const mark = row.flatMap((cell) => MARKED.exec(cell)?.[2] ?? []).join('');
    const cells = row.map((cell) => MARKED.exec(cell)?.[1] ?? cell);
    return [...cells, cells.some((cell) => CLOCK_CELL.test(cell)) ? mark : ''];
  });
  return { ...table, columns: [...columns, 'mark'], rows: apart };
}
