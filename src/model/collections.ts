/** Groups items by a key, keeping their order. */
export function groupBy<T, K>(items: readonly T[], key: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const k = key(item);
    const group = groups.get(k);
    if (group) group.push(item);
    else groups.set(k, [item]);
  }
  return groups;
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

/** Index of the first item for which `isPast` holds, in a list sorted so that it turns from false to true once. */
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
 * The value under a key of the record's own. Keys that come from files may be `constructor` or `toString`, which every
 * object seems to have.
 */
export function ownValue<T>(record: Readonly<Record<string, T>> | undefined, key: string): T | undefined {
  return record !== undefined && Object.hasOwn(record, key) ? record[key] : undefined;
}
