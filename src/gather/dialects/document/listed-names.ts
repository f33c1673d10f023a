import { isObject } from '../../../model/index.js';
import { isSameNoun } from './lookup-tables.js';

/** A list of names is short. */
const MOST_NAMES = 60;
const MIN_NAMES = 2;
/** Records, and names in use, from which on numbers may be those of names that a column is not called after. */
const MIN_RECORDS = 8;
const MIN_USED = 4;
const MAX_DEPTH = 24;

type Objects = Record<string, unknown>;
type Names = { readonly key: string; readonly byNumber: ReadonlyMap<string, string> };

const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);

/**
 * A JSON value with numbers in its records replaced by the names that a list in the document has at these places:
 * `"acts": ["exposure", "nudge"]` for records with `"act": 1`. A column refers to a list that is called after the same
 * thing, or to the only one of which it uses several names, the first or last among them.
 */
export function withListedNames(value: unknown): unknown {
  const names: Names[] = [];
  const lists: (readonly Objects[])[] = [];
  collect(value, names, lists, 0);
  if (names.length === 0) return value;
  const chosen = new Map<string, ReadonlyMap<string, string>>();
  for (const records of lists)
    for (const key of new Set(records.flatMap((record) => Object.keys(record)))) {
      const used = new Set(records.map((record) => record[key] ?? null).filter((one) => one !== null));
      const own = namesFor(key, used, records.length, names);
      if (own !== null) chosen.set(key, own);
    }
  return chosen.size === 0 ? value : replaced(value, chosen, 0);
}

function collect(value: unknown, names: Names[], lists: (readonly Objects[])[], depth: number): void {
  if (depth > MAX_DEPTH) return;
  if (isList(value)) {
    if (value.length > 1 && value.every(isObject)) lists.push(value);
    for (const one of value) collect(one, names, lists, depth + 1);
  } else if (isObject(value))
    for (const [key, one] of Object.entries(value)) {
      if (isList(one) && areNames(one)) names.push(...[0, 1].map((from) => ({ key, byNumber: numbered(one, from) })));
      else if (isObject(one) && areNumbered(one))
        names.push({ key, byNumber: new Map(Object.entries(one).map(([number, name]) => [number, String(name)])) });
      else collect(one, names, lists, depth + 1);
    }
}

function areNames(list: readonly unknown[]): list is readonly string[] {
  return (
    list.length >= MIN_NAMES &&
    list.length <= MOST_NAMES &&
    new Set(list).size === list.length &&
    list.every((one) => typeof one === 'string' && /\p{L}/u.test(one) && !/\d{2}/.test(one))
  );
}

/** Whether an object states a name for each of its numbers. */
function areNumbered(value: Objects): boolean {
  return Object.keys(value).every((key) => /^\d{1,3}$/.test(key)) && areNames(Object.values(value));
}

const numbered = (list: readonly string[], from: number): ReadonlyMap<string, string> =>
  new Map(list.map((name, i) => [String(i + from), name]));

/** The names that a column's numbers stand for; `null` if that is not clear. */
function namesFor(
  key: string,
  used: ReadonlySet<unknown>,
  records: number,
  all: readonly Names[],
): ReadonlyMap<string, string> | null {
  if (used.size < 2 || ![...used].every((one) => Number.isInteger(one))) return null;
  const isCounted = ({ byNumber }: Names): boolean => {
    const [first, last] = [[...byNumber.keys()][0], [...byNumber.keys()].at(-1)];
    return (
      [...used].every((one) => byNumber.has(String(one))) &&
      // Counted from nought or from one: only that number, or the one behind it, tells.
      [...used].some((one) => String(one) === (first === '0' ? first : last))
    );
  };
  const fitting = all.filter(isCounted);
  const called = fitting.filter((one) => isSameNoun(key.toLowerCase(), one.key.toLowerCase()));
  if (called.length === 1) return called[0]?.byNumber ?? null;
  const isUsed = ({ byNumber }: Names): boolean => used.size >= Math.max(MIN_USED, byNumber.size / 2);
  const likely = records >= MIN_RECORDS ? fitting.filter(isUsed) : [];
  return likely.length === 1 ? (likely[0]?.byNumber ?? null) : null;
}

function replaced(value: unknown, chosen: ReadonlyMap<string, ReadonlyMap<string, string>>, depth: number): unknown {
  if (depth > MAX_DEPTH) return value;
  if (isList(value))
    return value.map((one) =>
      isObject(one)
        ? Object.fromEntries(
            Object.entries(one).map(([key, own]) => [
              key,
              typeof own === 'number' ? (chosen.get(key)?.get(String(own)) ?? own) : replaced(own, chosen, depth + 1),
            ]),
          )
        : replaced(one, chosen, depth + 1),
    );
  if (!isObject(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([key, own]) => [key, replaced(own, chosen, depth + 1)]));
}
