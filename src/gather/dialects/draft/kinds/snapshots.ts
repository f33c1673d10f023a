import type { FieldLine } from './field-line.js';
import { isNumber } from './values.js';

/** A table of states has so many columns of words at least, each of few values. */
const MIN_COLUMNS = 4;
const MAX_STATES = 40;
const MIN_ROWS = 20;
/** The share of rows in which such a column is filled, and in which it says what the row above said. */
const FILLED = 0.7;
const SAME = 0.75;

/**
 * Whether each row of a table tells the states of all devices, whatever has changed: what happens then stands in no row
 * but in the difference of two.
 */
export function showsStates(lines: readonly FieldLine[], timePaths: readonly string[]): boolean {
  if (lines.length < MIN_ROWS) return false;
  const paths = new Set(lines.slice(0, 200).flatMap(({ fields }) => [...fields.keys()]));
  let columns = 0;
  for (const path of paths) {
    if (timePaths.includes(path)) continue;
    const values = lines.map(({ fields }) => fields.get(path) ?? '');
    const filled = values.filter((value) => value !== '');
    const states = new Set(filled);
    const isOfStates =
      states.size > 2 && states.size <= MAX_STATES && filled.filter(isWord).length > 0.8 * filled.length;
    if (!isOfStates || filled.length < FILLED * lines.length) continue;
    const same = values.filter((value, i) => i > 0 && value !== '' && value === values[i - 1]).length;
    if (same >= SAME * filled.length) columns++;
  }
  return columns >= MIN_COLUMNS;
}

function isWord(value: string): boolean {
  return !isNumber(value) && /\p{L}{2}/u.test(value);
}
