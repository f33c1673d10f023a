/** Groups items by a key, keeping their order. */
export function groupBy<T, K>(items: readonly T[], key: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  // Neighbours mostly belong to the same group: they need no look-up.
  let last: { readonly key: K; readonly group: T[] } | undefined;
  for (const item of items) {
    const k = key(item);
    if (last === undefined || last.key !== k) {
      const group = groups.get(k) ?? [];
      if (group.length === 0) groups.set(k, group);
      last = { key: k, group };
    }
    last.group.push(item);
  }
  return groups;
}

/** Values common to the items so far, and the group of those that share all. */
interface Branch<T> {
  readonly more: Map<unknown, Branch<T>>;
  group?: T[];
}

/**
 * Groups items by several values at once: groups and items in order of appearance. Building a text key of all values
 * for each item takes five times as long.
 */
export function groupByAll<T>(items: readonly T[], values: (item: T) => readonly unknown[]): T[][] {
  const groups: T[][] = [];
  const root: Branch<T> = { more: new Map() };
  for (const item of items) {
    let branch = root;
    for (const value of values(item)) {
      let next = branch.more.get(value);
      if (next === undefined) branch.more.set(value, (next = { more: new Map() }));
      branch = next;
    }
    if (branch.group === undefined) groups.push((branch.group = []));
    branch.group.push(item);
  }
  return groups;
}

/** Items sorted by a number, stable; the list itself if already sorted, as logs mostly are. */
export function sortedBy<T>(items: readonly T[], value: (item: T) => number): readonly T[] {
  let before = -Infinity;
  for (const item of items) {
    const own = value(item);
    if (own < before) return [...items].sort((a, b) => value(a) - value(b));
    before = own;
  }
  return items;
}

/** A unique key for several texts. Takes a tenth of the time of writing them as JSON. */
export function textsKey(...texts: readonly string[]): string {
  let key = '';
  for (const text of texts) key += `${text.length} ${text}`;
  return key;
}

const NOTHING = {};

/**
 * A copy of an item with more properties: `{ ...item, ...more }`, for objects created by the thousand. If a literal
 * begins with a spread and continues, V8 11 gives each object a hidden class of its own: it takes four times as long
 * and four times the memory, and accessing it afterwards takes four times as long. One that begins with anything else,
 * even an empty object, is spared that.
 */
export function extended<T extends object, M extends object>(item: T, more: M): T & M {
  return { ...NOTHING, ...item, ...more };
}

/** Appends many items to a list: spread as arguments, a hundred thousand of them would not fit on the stack. */
export function append<T>(list: T[], items: Iterable<T>): void {
  for (const item of items) list.push(item);
}

/**
 * The item at an index known to be valid, from a parallel list or a search.
 *
 * @throws RangeError when there is none: a default would hide that two lists differ in length
 */
export function itemAt<T>(items: ArrayLike<T>, index: number): T {
  const item = items[index];
  if (item === undefined) throw new RangeError(`there is no item ${index} among ${items.length}`);
  return item;
}

/** A number of each item in a typed array: `Float64Array.from` with a function takes four times as long. */
export function numbersOf<T>(items: readonly T[], of: (item: T, index: number) => number): Float64Array {
  const numbers = new Float64Array(items.length);
  for (let i = 0; i < numbers.length; i++) numbers[i] = of(items[i]!, i);
  return numbers;
}

/** The value of a key known to be in the map. @throws RangeError when there is none */
export function atKey<K, V>(values: ReadonlyMap<K, V>, key: K): V {
  const value = values.get(key);
  if (value === undefined) throw new RangeError(`the key ${String(key)} has no value`);
  return value;
}

/** A memoised function of an object, for results that several callers request. The object must not change. */
export function oncePer<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const known = new WeakMap<K, { readonly value: V }>();
  return (key) => {
    const found = known.get(key) ?? { value: make(key) };
    known.set(key, found);
    return found.value;
  };
}

/** Items that pass and items that do not, each in order. */
export function partition<T, P extends T>(items: readonly T[], passes: (item: T) => item is P): [P[], Exclude<T, P>[]];
export function partition<T>(items: readonly T[], passes: (item: T) => boolean): [T[], T[]];
export function partition<T>(items: readonly T[], passes: (item: T) => boolean): [T[], T[]] {
  const passed: T[] = [];
  const failed: T[] = [];
  for (const item of items) (passes(item) ? passed : failed).push(item);
  return [passed, failed];
}

/** The count of a key; 0 when never counted. */
export function countOf<K>(counts: ReadonlyMap<K, number>, key: K): number {
  return counts.get(key) ?? 0;
}

/** Adds to a key's count. @returns the new count */
export function increment<K>(counts: Map<K, number>, key: K, by = 1): number {
  const count = countOf(counts, key) + by;
  counts.set(key, count);
  return count;
}

/** The first item of each key, in order. */
export function distinctBy<T, K>(items: readonly T[], key: (item: T) => K): T[] {
  const seen = new Set<K>();
  return items.filter((item) => {
    const k = key(item);
    if (seen.has(k)) return false;
    seen.add(k);
    return true;
  });
}

/** Index of the first item for which `isPast` holds, in a list sorted so that it changes once from false to true. */
export function partitionPoint<T>(items: ArrayLike<T>, isPast: (item: T) => boolean): number {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const mid = (low + high) >>> 1;
    if (isPast(items[mid]!)) high = mid;
    else low = mid + 1;
  }
  return low;
}

/**
 * The record's own value under a key. Keys from files may be `constructor` or `toString`, which every object inherits.
 */
export function ownValue<T>(record: Readonly<Record<string, T>> | undefined, key: string): T | undefined {
  return record !== undefined && Object.hasOwn(record, key) ? record[key] : undefined;
}
