import type { FieldLine } from './field-line.js';
import { samplerState } from './sampler-state.js';
import { isFrameFile, isNumber } from './values.js';

/** Number of rows whose columns are looked for: a night may be held up late. */
const LOOKED_AT = 5000;
/** Minimum number of word columns of a state table, and of rows. */
const MIN_COLUMNS = 3;
const MIN_ROWS = 20;
/** Minimum fraction of rows in which such a column is filled, and its maximum number of states. */
const FILLED = 0.7;
const MAX_STATES = 60;
/** Columns that keep their value for long. */
const SAME = 0.75;
const MIN_SAME = 2;
/**
 * Fraction of rows with a single changed column, of those with any change; how often each column is that, and the
 * maximum for one.
 */
const ALONE = 0.5;
/** The same where only this fraction of rows changed anything. */
const MOST_CHANGED = 0.5;
const ALONE_SAMPLED = 0.3;
const TIMES_ALONE = 2;
const MOST_OF_ONE = 0.85;
const MOSTLY = 0.8;

interface Column {
  readonly path: string;
  readonly values: readonly string[];
  /** Fraction of rows with a value different from the row above. */
  readonly changes: readonly boolean[];
}

/**
 * The columns of a table, or the fields of records, that state what all devices do, whichever has changed: an event is
 * then only visible as the difference between two rows. Columns change independently while the others stay the same.
 * Empty if rows say by themselves what happens.
 */
export function stateColumns(lines: readonly FieldLine[], timePaths: readonly string[]): readonly string[] {
  if (lines.length < MIN_ROWS) return [];
  const paths = [...new Set(lines.slice(0, LOOKED_AT).flatMap(({ fields }) => [...fields.keys()]))];
  const columns = paths.filter((path) => !timePaths.includes(path)).map((path) => columnOf(lines, path));
  const words = columns.filter(isOfStates);
  if (areOfPair(words, lines.length)) return words.map(({ path }) => path);
  const steady = words.filter(({ changes }) => count(changes) <= (1 - SAME) * lines.length);
  if (words.length < MIN_COLUMNS || steady.length < MIN_SAME) {
    const own = samplerState(columns, words);
    return own === null ? [] : [own];
  }
  const changed = lines.map((_, i) => words.filter(({ changes }) => changes[i] === true));
  const alone = changed.flatMap(([first, second]) => (first !== undefined && second === undefined ? [first] : []));
  const times = words.map((column) => alone.filter((one) => one === column).length);
  const any = changed.filter(({ length }) => length > 0).length;
  // Rows in which nothing changed were written at their time: several things may have happened since the last.
  const isSampled = any <= MOST_CHANGED * lines.length;
  const isOfDevices =
    alone.length >= (isSampled ? ALONE_SAMPLED : ALONE) * any &&
    times.filter((one) => one >= TIMES_ALONE).length >= MIN_COLUMNS &&
    Math.max(...times) <= MOST_OF_ONE * alone.length;
  if (!isOfDevices) return [];
  const files = columns.filter(
    (one) => !words.includes(one) && filledOf(one).filter(isFileAlone).length > MOSTLY * filledOf(one).length,
  );
  const flags = columns.filter((one) => !words.includes(one) && !files.includes(one) && isFlag(one, words, isSampled));
  return [...words, ...flags, ...files].map(({ path }) => path);
}

/** Fraction of changes in which a column, empty most of the time, changes alone: a remark does not. */
const FLAG_ALONE = 0.3;
const MOST_FLAGS = 12;
/** In rows written at their time a remark changes alone as well, but seldom comes again. */
const AGAIN = 3;

/** Whether a column names a state in which a device, or the night, seldom is: `WAIT`, or nothing. */
function isFlag(column: Column, words: readonly Column[], isSampled: boolean): boolean {
  const filled = filledOf(column);
  const states = new Set(filled).size;
  if (states === 0 || states > MOST_FLAGS || (isSampled && filled.length < AGAIN * states)) return false;
  if (!filled.every((value) => /\p{L}/u.test(value) && !/\d/.test(value))) return false;
  const alone = column.changes.filter((changed, i) => changed && words.every(({ changes }) => changes[i] !== true));
  return alone.length >= Math.max(1, FLAG_ALONE * count(column.changes));
}

/** Fraction of rows in which one of two columns changes alone. */
const IN_TURN = 0.85;

/** Whether the only columns are those of two devices with the same states, either of which changes from row to row. */
function areOfPair([one, other, ...more]: readonly Column[], rows: number): boolean {
  if (one === undefined || other === undefined || more.length > 0) return false;
  const [states, same] = [one, other].map(({ values }) => new Set(values));
  if (states === undefined || same === undefined || states.size !== same.size) return false;
  const alone = one.changes.filter((changed, i) => changed !== other.changes[i]).length;
  return alone >= IN_TURN * (rows - 1) && [...states].every((state) => state !== '' && same.has(state));
}

function columnOf(lines: readonly FieldLine[], path: string): Column {
  const values = lines.map(({ fields }) => fields.get(path) ?? '');
  return { path, values, changes: values.map((value, i) => i > 0 && value !== values[i - 1]) };
}

function isOfStates(column: Column): boolean {
  const filled = filledOf(column);
  // `saved m33_0001.fits`, `exposing 300 s Ha`: one state, whatever its values.
  const states = new Set(filled.map((value) => value.replace(/(?<!\S)[^\s\d]*\d\S*/g, '#'))).size;
  return (
    filled.length >= FILLED * column.values.length &&
    states > 1 &&
    states <= MAX_STATES &&
    filled.filter((value) => !isNumber(value) && /\p{L}/u.test(value) && !isOnlyFile(value)).length >
      MOSTLY * filled.length
  );
}

function isOnlyFile(value: string): boolean {
  return isFrameFile(value) && !/\s/.test(value);
}

/** A remark may name a file as well: `wren: m33_001.fits` repeats another column. */
function isFileAlone(value: string): boolean {
  return isFrameFile(value) && !/\p{L}:\s/u.test(value);
}

function filledOf({ values }: Column): readonly string[] {
  return values.filter((value) => value !== '');
}

function count(changes: readonly boolean[]): number {
  return changes.filter(Boolean).length;
}
