import type { SheetTable } from './sheet-lines.js';

/** Of the cells of a column of numbers, those that are numbers alone; and rows of its table at least. */
const NUMBERS = 0.8;
const MIN_ROWS = 10;
const NUMBER = /^\d+(?:[.,]\d+)?$/;

/**
 * A table whose numbers have words beside them in a few cells, as `cut after 177 of 420 (cloud)` in a column of
 * seconds: the smaller number stays, which is what came of it, and the words are in a column of remarks.
 */
export function wordsBesideNumbers(table: SheetTable): SheetTable {
  const { columns, rows } = table;
  const mixed = columns.flatMap((_, i) => {
    const cells = rows.flatMap((row) => row[i] || []);
    const others = cells.filter((cell) => !NUMBER.test(cell));
    const isMixed = others.length > 0 && others.every((cell) => /\p{L}{2}/u.test(cell) && numbersIn(cell).length > 0);
    return rows.length >= MIN_ROWS && isMixed && cells.length - others.length >= NUMBERS * cells.length ? [i] : [];
  });
  if (mixed.length === 0) return table;
  const split = rows.map((row) => {
    const said: string[] = [];
    const cells = row.map((cell, i) => {
      if (!mixed.includes(i) || cell === '' || NUMBER.test(cell)) return cell;
      said.push(cell.replace(/\d+(?:[.,]\d+)?/g, ' '));
      return `${Math.min(...numbersIn(cell))}`;
    });
    return [...cells, said.join(' ').replace(/\s+/g, ' ').trim()];
  });
  return { ...table, columns: [...columns, 'remark'], rows: split };
}

function numbersIn(cell: string): number[] {
  return (cell.match(/(?<![\d:.,])\d+(?:[.,]\d+)?(?![\d:])/g) ?? []).map((one) => Number(one.replace(',', '.')));
}
