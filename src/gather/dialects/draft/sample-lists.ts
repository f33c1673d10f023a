import { columnOf, ROOT } from '../records/sample-list.js';
import { WHOLE_LIST } from '../records/limits.js';

/** A list of guiding samples, or similar, that a record holds. */
export interface ListOfSamples {
  readonly path: string;
  readonly length: number;
  /** Names or positions of the columns that all samples have. */
  readonly columns: readonly string[];
  texts(column: string): readonly string[];
  /** Texts and numbers of the record, by path. */
  readonly scalars: ReadonlyMap<string, string>;
}

/** Minimum number of list elements, and of columns per sample; maximum nesting depth. */
const MIN_LENGTH = 3;
const MIN_COLUMNS = 2;
const MAX_DEPTH = 6;

type Columns = ReadonlyMap<string, readonly string[]>;

/** All lists in a record that hold rows of numbers, or number columns of equal length. */
export function samplesIn(record: unknown): ListOfSamples[] {
  const scalars = new Map<string, string>();
  const found: { readonly path: string; readonly columns: Columns }[] = [];
  const walk = (value: unknown, path: string, depth: number): void => {
    if (typeof value === 'string' || typeof value === 'number') scalars.set(path, String(value));
    if (typeof value !== 'object' || value === null || depth > MAX_DEPTH) return;
    if (Array.isArray(value)) {
      const rows = rowsOf(value);
      if (rows !== null) found.push({ path, columns: rows });
      return;
    }
    const columns = new Map<string, Map<string, readonly string[]>>();
    for (const [key, inner] of Object.entries(value)) {
      const at = path === '' ? key : `${path}.${key}`;
      const list = key.endsWith(WHOLE_LIST) ? null : columnOf(inner);
      const isColumn =
        list !== null && list.length >= MIN_LENGTH && list.every((text) => text !== '' && /\d/.test(text));
      if (!isColumn) {
        walk(inner, at, depth + 1);
        continue;
      }
      const cut = at.lastIndexOf('.');
      const parent = cut < 0 ? '' : at.slice(0, cut);
      columns.set(parent, (columns.get(parent) ?? new Map<string, readonly string[]>()).set(at.slice(cut + 1), list));
    }
    for (const [parent, own] of columns) {
      const length = Math.max(...[...own.values()].map((list) => list.length));
      const alike = new Map([...own].filter(([, list]) => list.length === length));
      if (alike.size >= MIN_COLUMNS) found.push({ path: parent, columns: alike });
    }
  };
  walk(record, '', 0);
  return found.map(({ path, columns }) => ({
    path: path === '' ? ROOT : path,
    length: [...columns.values()][0]?.length ?? 0,
    columns: [...columns.keys()],
    texts: (column) => columns.get(column) ?? [],
    scalars,
  }));
}

/** The columns of a list of lists, or of objects. */
function rowsOf(items: readonly unknown[]): Columns | null {
  if (items.length < MIN_LENGTH) return null;
  const columns = new Map<string, string[]>();
  for (const item of items) {
    if (typeof item !== 'object' || item === null) return null;
    for (const [key, value] of Object.entries(item)) {
      if (typeof value !== 'number' && typeof value !== 'string') continue;
      const own = columns.get(key);
      if (own === undefined) columns.set(key, [String(value)]);
      else own.push(String(value));
    }
  }
  const whole = new Map([...columns].filter(([, texts]) => texts.length === items.length));
  return whole.size < MIN_COLUMNS ? null : whole;
}
