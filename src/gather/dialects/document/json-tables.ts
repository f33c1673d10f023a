import { isObject } from '../../../model/index.js';
/** Minimum number of table rows, and of rows with a value for all columns or all but the last. */
const MIN_ROWS = 2;
const FULL = 0.8;
const MIN_COLUMNS = 2;
/** Minimum number of rows of a table stored by column. */
const MIN_LENGTH = 10;
const MAX_DEPTH = 24;

type Objects = Record<string, unknown>;
const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);

/**
 * A JSON value with its compact tables expanded to lists of objects: `{"columns": ["at", "what"], "rows": [[…], …]}`,
 * or tables with the column names in the first row, whatever the keys are.
 */
export function withTables(value: unknown, listed = listedKeys(value), depth = 0): unknown {
  if (depth > MAX_DEPTH) return value;
  if (isList(value)) {
    const [first, ...rows] = value;
    const names = isList(first) ? namesIn(first) : null;
    return names !== null && areRows(rows, names, listed) && !rows.some(isOfNames)
      ? objectsOf(rows, names)
      : value.map((one) => withTables(one, listed, depth + 1));
  }
  if (!isObject(value)) return value;
  return (
    ownTable(value, listed) ??
    Object.fromEntries(Object.entries(value).map(([key, one]) => [key, withTables(one, listed, depth + 1)]))
  );
}

/** The keys of the objects in a document's lists. */
function listedKeys(value: unknown, keys = new Set<string>(), depth = 0): ReadonlySet<string> {
  if (depth > MAX_DEPTH || typeof value !== 'object' || value === null) return keys;
  const isOwn = isList(value);
  for (const one of isOwn ? value : Object.values(value)) {
    if (isOwn && isObject(one)) for (const key of Object.keys(one)) if (isScalar(one[key])) keys.add(key);
    listedKeys(one, keys, depth + 1);
  }
  return keys;
}

/** The rows of an object that is a table; its other content comes first, as a separate object. */
function ownTable(value: Objects, listed: ReadonlySet<string>): readonly Objects[] | null {
  const namings = Object.entries(value).flatMap(([key, candidate]) => {
    const names = isList(candidate) ? namesIn(candidate) : null;
    return names === null ? [] : [{ namesKey: key, names }];
  });
  for (const { namesKey, names } of namings) {
    for (const [rowsKey, rows] of Object.entries(value)) {
      if (rowsKey === namesKey || !isList(rows) || !areRows(rows, names, listed)) continue;
      // Names of other things may be nearly as many.
      if (!isAsWide(rows, names) && namings.some((other) => isAsWide(rows, other.names))) continue;
      const others = Object.entries(value).filter(([key]) => key !== namesKey && key !== rowsKey);
      return [...(others.length > 0 ? [Object.fromEntries(others)] : []), ...objectsOf(rows, names)];
    }
  }
  return ofColumns(value, listed);
}

function isAsWide(rows: readonly unknown[], names: readonly string[]): boolean {
  return rows.every((row) => isList(row) && row.length === names.length);
}

/**
 * The rows of an object with one list per column, all of the same length, one of them holding words or named like a key
 * of other records; `null` if it is not such a table.
 */
function ofColumns(value: Objects, listed: ReadonlySet<string>): readonly Objects[] | null {
  const all = Object.entries(value);
  const lists = all.filter((one): one is [string, readonly unknown[]] => isList(one[1]) && one[1].every(isScalar));
  const [, first] = lists[0] ?? [];
  const isTable =
    first !== undefined &&
    first.length >= MIN_LENGTH &&
    lists.length >= MIN_COLUMNS &&
    lists.every(([, list]) => list.length === first.length) &&
    lists.some(([name, list]) => listed.has(name) || list.every((cell) => cell === null || isWord(cell)));
  if (!isTable) return null;
  const others = all.filter(([key]) => !lists.some(([name]) => name === key));
  return [
    ...(others.length > 0 ? [Object.fromEntries(others)] : []),
    ...first.map((_, i) => Object.fromEntries(lists.map(([name, list]) => [name, list[i]]))),
  ];
}

function isScalar(value: unknown): boolean {
  return typeof value !== 'object' || value === null;
}

/** Column names: texts, or objects that each hold one under `name` or a similar key. */
function namesIn(list: readonly unknown[]): readonly string[] | null {
  const names = list.map((one) => (isObject(one) ? Object.values(one).find((part) => typeof part === 'string') : one));
  const texts = names.filter((name): name is string => typeof name === 'string' && /^\p{L}/u.test(name));
  const areNames = texts.length === list.length && new Set(texts).size === texts.length;
  return areNames && texts.length >= MIN_COLUMNS ? texts : null;
}

/** @param listed keys of other records: rows of numbers also count as records if a column is named like one of them */
function areRows(
  rows: readonly unknown[],
  names: readonly string[],
  listed: ReadonlySet<string>,
): rows is readonly (readonly unknown[])[] {
  if (rows.length < MIN_ROWS || !rows.every((row) => isList(row) && row.length <= names.length)) return false;
  const full = rows.filter((row) => isList(row) && row.length >= names.length - 1);
  return (
    full.length >= FULL * rows.length &&
    (names.some((name) => listed.has(name)) || full.some((row) => isList(row) && row.some(isWord)))
  );
}

/** A text that is neither a number nor a time: rows without one are samples, which are read as lists. */
function isWord(cell: unknown): boolean {
  return typeof cell === 'string' && /\p{L}{2}|^\p{L}$/u.test(cell);
}

/** Whether a row holds only words, like the first: then the first is not a header. */
function isOfNames(row: readonly unknown[]): boolean {
  return row.every((cell) => typeof cell === 'string' && !/\d/.test(cell));
}

function objectsOf(rows: readonly (readonly unknown[])[], names: readonly string[]): Objects[] {
  return rows.map((row) => Object.fromEntries(row.map((cell, i) => [names[i] ?? String(i), cell])));
}
