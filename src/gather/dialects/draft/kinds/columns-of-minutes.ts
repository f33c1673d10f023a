import { groupBy } from '../../../../model/index.js';
import type { FieldLine } from './field-line.js';
import { isFilterName } from './values.js';

/** Minimum fractions of rows that fill a column, and of those that fill one only, or leave a column empty. */
const COVERED = 0.95;
const ONE_ONLY = 0.2;
/** Columns of two trains have at least so many wordings in common, for this fraction of the cells of each. */
const MIN_ALIKE = 2;
const ALIKE = 0.6;
/** Fraction of cells with words, and minimum number of cells of a train. */
const WORDED = 0.6;
const MIN_CELLS = 8;
const MOST_COLUMNS = 6;

/**
 * The columns of a table with a row for each minute in which something happened: one for each train, which say the
 * same things, and others for what they share. Several devices may have done something, but seldom all of them. Empty
 * if there are none.
 */
export function columnsOfMinutes(lines: readonly FieldLine[], timePaths: readonly string[]): readonly string[] {
  const cells = lines.flatMap(({ fields }) =>
    [...fields].flatMap(([path, value]) => (value === '' || timePaths.includes(path) ? [] : [{ path, value }])),
  );
  const columns = groupBy(cells, ({ path }) => path);
  if (columns.size < 2 || columns.size > MOST_COLUMNS) return [];
  const said = new Map([...columns].map(([path, own]) => [path, own.map(({ value }) => wordsOf(value))] as const));
  const areWorded = [...said.values()].every(
    (own) => own.filter((words) => words !== '').length >= Math.max(1, WORDED * own.length),
  );
  const trains = [...said].filter(
    ([path, own]) =>
      own.length >= MIN_CELLS && [...said].some(([other, words]) => other !== path && isAlike(own, words)),
  );
  if (!areWorded || trains.length < 2 || trains.some(([, own]) => own.length > (1 - ONE_ONLY) * lines.length))
    return [];
  const filled = lines.map(
    ({ fields }) => [...columns.keys()].filter((path) => (fields.get(path) ?? '') !== '').length,
  );
  const isOfMinutes =
    filled.filter((count) => count > 0).length >= COVERED * lines.length &&
    filled.filter((count) => count === 1).length >= ONE_ONLY * lines.length;
  return isOfMinutes ? [...columns.keys()] : [];
}

/** Whether most of a column's cells are worded like cells of another. */
function isAlike(own: readonly string[], others: readonly string[]): boolean {
  const known = new Set(others);
  const again = own.filter((words) => words !== '' && known.has(words));
  return new Set(again).size >= MIN_ALIKE && again.length >= ALIKE * own.length;
}

const WORD = /(?<![\p{L}\d_.])(?:\p{L}{3,}|[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}]+)(?![\d_])/gu;

/** The words of a cell, without values. */
function wordsOf(cell: string): string {
  const words = (cell.match(WORD) ?? []).filter((word) => !isFilterName(word));
  return words.join(' ').toLowerCase();
}
