import { groupBy } from '../../../model/index.js';
import { isAboutZero } from './guiding-columns.js';
import type { FieldLine } from './kinds/field-line.js';
import { fieldSlots } from './kinds/field-slots.js';
import type { Kind } from './kinds/kind.js';
import { isNumber, numberIn } from './kinds/values.js';
import { axesNamed } from './guiding-axes.js';

/** Minimum number of rows with both numbers. */
const MIN_ROWS = 20;
/** How many times as many as all other records. */
const MANY = 4;

/**
 * The rows of a table, or the records, that contain two numbers named after the axes of the sky among other content, as
 * a separate kind: if each row states what all devices do, any row may contain a sample. `null` if there are none.
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

function listOf(lists: Map<string, string[]>, key: string): string[] {
  const own = lists.get(key) ?? [];
  lists.set(key, own);
  return own;
}

/** What a document says about a record in addition to its own fields. */
const AROUND = /^(?:tag|in\..*)$/;

/**
 * The records of a document without those that contain only a time and numbers, two of them about zero, if these are
 * many: they are samples and say nothing about how the others describe events.
 */
export function withSamplesApart(
  lines: readonly FieldLine[],
  timePaths: readonly string[],
): readonly (readonly FieldLine[])[] {
  const isSamples = (own: readonly FieldLine[]): boolean => {
    const values = new Map<string, string[]>();
    for (const { fields } of own)
      for (const [path, value] of fields)
        if (!AROUND.test(path) && !timePaths.includes(path)) listOf(values, path).push(value);
    const columns = [...values.values()];
    return (
      own.length >= MIN_ROWS &&
      columns.every((column) => column.every(isNumber)) &&
      columns.filter((column) => isAboutZero(column.map(numberIn))).length >= 2
    );
  };
  const tables = [...groupBy(lines, ({ fields }) => fields.get('tag') ?? '').values()];
  const samples = new Set(tables.filter(isSamples).flat());
  const others = lines.filter((line) => !samples.has(line));
  return samples.size > MANY * others.length && others.length > 0 ? [others, [...samples]] : [lines];
}
