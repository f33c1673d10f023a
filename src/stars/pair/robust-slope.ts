/** The common slope of several groups of points, with its error. */
import { median, robustSpread } from '../../model/statistics.js';

export interface TimedValue {
  readonly t: number;
  readonly value: number;
}

export interface Slope {
  readonly slope: number;
  readonly uncertainty: number;
}

/** The number of pairs grows quadratically: larger groups are thinned. */
const MOST_PER_GROUP = 200;
/** The median of pair slopes needs 5 % more variance than least squares on normal errors (Sen 1968; from memory). */
const SEN = 1.047;

/**
 * The median slope over pairs within the groups, each with its own offset (Theil 1950, Sen 1968): three values in ten
 * may be wrong. The standard error is that of least squares with the residuals' robust spread, widened if temporal
 * neighbours are correlated. `null` without two different times in a group.
 */
export function sharedSlope(groups: readonly (readonly TimedValue[])[]): Slope | null {
  const slopes: number[] = [];
  for (const group of groups) {
    const step = Math.ceil(group.length / MOST_PER_GROUP);
    const some = step > 1 ? group.filter((_, i) => i % step === 0) : group;
    for (const [i, a] of some.entries()) {
      for (let k = i + 1; k < some.length; k++) {
        const b = some[k];
        if (b && b.t !== a.t) slopes.push((b.value - a.value) / (b.t - a.t));
      }
    }
  }
  if (slopes.length === 0) return null;
  const slope = median(slopes);
  let lever = 0;
  let points = 0;
  const used = groups.filter((g) => g.length > 1);
  const residuals = used.map((group) => {
    const middle = group.reduce((sum, p) => sum + p.t, 0) / group.length;
    for (const p of group) lever += (p.t - middle) ** 2;
    points += group.length;
    const level = median(group.map((p) => p.value - slope * p.t));
    return group.map((p) => p.value - slope * p.t - level);
  });
  const freedom = Math.max(1, points - used.length - 1);
  const spread = robustSpread(residuals.flat()) * Math.sqrt(points / freedom);
  return { slope, uncertainty: (spread * Math.sqrt(SEN) * widening(residuals)) / Math.sqrt(lever) };
}

/** √((1+r)/(1−r)) for the correlation r of neighbours in time (an autoregression of first order). */
function widening(groups: readonly (readonly number[])[]): number {
  let products = 0;
  let squares = 0;
  for (const group of groups) {
    for (const [i, value] of group.entries()) {
      squares += value * value;
      const next = group[i + 1];
      if (next !== undefined) products += value * next;
    }
  }
  const r = squares > 0 ? Math.min(0.9, Math.max(0, products / squares)) : 0;
  return Math.sqrt((1 + r) / (1 - r));
}
