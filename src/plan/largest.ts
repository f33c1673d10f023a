/**
 * The least of so many largest values: what is below it need not be sorted. −∞ where there are no more than these.
 *
 * @param of gives no NaN
 */
export function leastOfLargest<T>(items: readonly T[], many: number, of: (item: T) => number): number {
  if (items.length <= many) return -Infinity;
  const values = new Float64Array(items.length);
  for (let i = 0; i < values.length; i++) values[i] = of(items[i]!);
  return values.sort()[items.length - many]!;
}
