/** Plain robust statistics. All return `NaN` for no values, so that a missing figure can never pass as zero. */

/** Middle value; the mean of the middle two for an even count. */
export function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

/** Quantile by linear interpolation between order statistics (definition 7 of Hyndman & Fan 1996). */
export function quantile(values: readonly number[], share: number): number {
  if (values.length === 0) return NaN;
  const sorted = new Float64Array(values).sort();
  const place = (sorted.length - 1) * share;
  const below = sorted[Math.floor(place)]!;
  const above = sorted[Math.ceil(place)]!;
  return below + (above - below) * (place - Math.floor(place));
}

/** Median absolute deviation, scaled by 1.4826 to estimate a normal distribution's standard deviation. */
export function robustSpread(values: readonly number[]): number {
  const centre = median(values);
  return 1.4826 * median(values.map((v) => Math.abs(v - centre)));
}

/** Arithmetic mean. */
export function mean(values: readonly number[]): number {
  return sum(values) / (values.length || NaN);
}

/** Sum of the known ones; 0 if there are none. */
export function sumOfKnown(values: readonly (number | null | undefined)[]): number {
  return sum(values.flatMap((value) => value ?? []));
}

/** Sum; 0 for no values. */
export function sum(values: readonly number[]): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}
