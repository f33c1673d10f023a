import type { FieldLine } from './kinds/field-line.js';
import { fieldSlots } from './kinds/field-slots.js';
import type { Kind } from './kinds/kind.js';
import { isNumber } from './kinds/values.js';
import { axesNamed } from './guiding-axes.js';

/** Rows with both numbers, at least. */
const MIN_ROWS = 20;

/**
 * The rows of a table, or the records, that hold two numbers named by the axes of the sky beside what else they tell,
 * as a kind of their own: where each row states what all devices do, samples stand in whatever row comes next. `null`
 * where there are none.
 */
export function rowsWithErrors(lines: readonly FieldLine[], decimalComma: boolean): Kind | null {
  const paths = [...new Set(lines.flatMap(({ fields }) => [...fields.keys()]))];
  const pair = axesNamed(paths);
  if (pair === null) return null;
  const rows = lines.filter(({ fields }) => pair.every((path) => isNumber(fields.get(path) ?? '')));
  const [first] = rows;
  if (rows.length < MIN_ROWS || first === undefined) return null;
  const { slots } = fieldSlots(rows, pair, decimalComma);
  return {
    count: rows.length,
    firstLine: first.line,
    examples: [],
    summary: pair.join(' '),
    wording: '',
    lead: 0,
    hints: '',
    slots,
    lines: rows.map(({ line }) => line),
    atMs: rows.map(({ atMs }) => atMs),
    when: () => ({}),
  };
}

/** What a document says of a record besides its own fields. */
const AROUND = /^(?:tag|in\..*)$/;

/**
 * The records of a document, and apart from them those that hold a time and numbers alone: the samples in a table of
 * their own are many, and say nothing of how the others tell what happens.
 */
export function withSamplesApart(
  lines: readonly FieldLine[],
  timePaths: readonly string[],
): readonly (readonly FieldLine[])[] {
  const isOfNumbers = ({ fields }: FieldLine): boolean =>
    [...fields].every(([path, value]) => AROUND.test(path) || timePaths.includes(path) || isNumber(value));
  const [samples, others] = [lines.filter(isOfNumbers), lines.filter((line) => !isOfNumbers(line))];
  return samples.length >= MIN_ROWS && others.length >= MIN_ROWS ? [others, samples] : [lines];
}
