/** The middle of a few numbers without sorting them all. */

/**
 * Median of the first `count` values, which are reordered (selection as in Hoare 1961, Algorithm 65); for an even count
 * the upper of the middle two.
 */
export function medianInPlace(values: Float64Array, count: number): number {
  const wanted = count >> 1;
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1] as number;
    let i = low;
    let j = high;
    while (i <= j) {
      while ((values[i] as number) < pivot) i++;
      while ((values[j] as number) > pivot) j--;
      if (i <= j) {
        const swapped = values[i] as number;
        values[i++] = values[j] as number;
        values[j--] = swapped;
      }
    }
    if (wanted <= j) high = j;
    else if (wanted >= i) low = i;
    else break;
  }
  return values[wanted] as number;
}
