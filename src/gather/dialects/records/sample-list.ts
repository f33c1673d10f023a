import { jsonObject } from './json-fields.js';

/** Guiding samples that a record holds as a list of lists or objects, or as an object of columns. */
export interface SampleList {
  readonly length: number;
  /** The value of a sample by the name or position of its column; `undefined` if it has none. */
  value(index: number, column: string): string | undefined;
}

/** The path of a record itself, whose fields are the columns. */
export const ROOT = '.';

/**
 * The samples at a path of a record.
 *
 * @param columns names of columns that each sample has: an object of columns has their length
 * @returns `null` if the text is not an object, or holds nothing of the kind there
 */
export function sampleList(text: string, path: string, columns: readonly string[]): SampleList | null {
  const record = jsonObject(text);
  const rows = path === ROOT ? record : valueAt(record, path);
  const front = path === ROOT ? '' : `${path}.`;
  if (Array.isArray(rows)) {
    const items: readonly unknown[] = rows;
    return { length: items.length, value: (i, column) => textOf(valueAt(items[i], column)) };
  }
  const lists = new Map(columns.map((column) => [column, columnOf(valueAt(record, `${front}${column}`))] as const));
  const lengths = new Set([...lists.values()].flatMap((list) => (list === null ? [] : [list.length])));
  const [length, other] = lengths;
  if (length === undefined || other !== undefined) return null;
  return {
    length,
    value: (i, column) => {
      const list = lists.get(column) ?? columnOf(valueAt(record, `${front}${column}`));
      return list?.[i];
    },
  };
}

/** The values of a column: those of a list, or of a text separated by blanks. */
export function columnOf(value: unknown): string[] | null {
  if (Array.isArray(value)) return value.map((one) => textOf(one) ?? '');
  if (typeof value !== 'string') return null;
  const texts = value.trim().split(/\s+/);
  return texts.length > 1 ? texts : null;
}

/** The value at a path: names with points in them count as well. */
export function valueAt(value: unknown, path: string): unknown {
  if (path === '') return value;
  if (typeof value !== 'object' || value === null) return undefined;
  for (const [key, inner] of Object.entries(value)) {
    if (key === path) return inner;
    if (path.startsWith(`${key}.`)) {
      const found = valueAt(inner, path.slice(key.length + 1));
      if (found !== undefined) return found;
    }
  }
  return undefined;
}

function textOf(value: unknown): string | undefined {
  return typeof value === 'number' || typeof value === 'string' ? String(value) : undefined;
}
