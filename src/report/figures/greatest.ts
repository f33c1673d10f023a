/** The item with the largest value, the first of several; `undefined` for none. */
export function greatest<T>(items: readonly T[], value: (item: T) => number): T | undefined {
  let best: T | undefined;
  for (const item of items) if (best === undefined || value(item) > value(best)) best = item;
  return best;
}
