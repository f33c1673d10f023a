import { axesNamed } from '../guiding-axes.js';
import { isAboutZero } from '../guiding-columns.js';
import { isNumber, numberIn } from './values.js';

/** A column of a table with one cell per row, empty if the row has none. */
export interface SamplerColumn {
  readonly path: string;
  readonly values: readonly string[];
}

/** Fraction of rows with a state, number of states that last several rows, fraction of rows that repeat the state. */
const FILLED = 0.95;
const MIN_LASTING = 3;
const SAME = 0.5;
/** Fraction of rows with guiding errors. */
const SAMPLED = 0.3;
/** Fraction of rows without errors that may have words in another column. */
const REMARKS = 0.2;

/**
 * The column with the state of a guider that writes one row per sample: events are the differences between rows. `null`
 * if the rows have no guiding errors, or are events themselves: the word for an event is not repeated row after row.
 *
 * @param words the columns whose cells are states
 */
export function samplerState(columns: readonly SamplerColumn[], words: readonly SamplerColumn[]): string | null {
  const [state] = [...words].sort((a, b) => filled(b) - filled(a));
  if (state === undefined || filled(state) < FILLED) return null;
  const { values } = state;
  const lasting = new Set(values.filter((value, i) => value !== '' && value === values[i - 1]));
  const same = values.filter((value, i) => i > 0 && value === values[i - 1]).length;
  if (lasting.size < MIN_LASTING || same < SAME * values.length) return null;
  const named = axesNamed(columns.map(({ path }) => path));
  const errors =
    named === null
      ? columns.filter((column) => filled(column) >= SAMPLED && isAboutZero(numbersIn(column)))
      : columns.filter((column) => named.includes(column.path) && filled(column) >= SAMPLED);
  if (errors.length < 2) return null;
  // If rows between the samples have words elsewhere, those are the events.
  const between = values.flatMap((_, i) => (errors.some((column) => column.values[i] !== '') ? [] : [i]));
  const isSaid = (i: number): boolean =>
    columns.some((other) => other.path !== state.path && /\p{L}{2}/u.test(other.values[i] ?? ''));
  const said = between.filter(isSaid);
  return said.length <= REMARKS * between.length ? state.path : null;
}

function filled({ values }: SamplerColumn): number {
  return values.filter((value) => value !== '').length / Math.max(1, values.length);
}

function numbersIn({ values }: SamplerColumn): number[] {
  return values.filter(isNumber).map(numberIn);
}
