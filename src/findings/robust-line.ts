/** A straight line through points with outliers. */
import { median } from '../model/index.js';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Line {
  readonly slope: number;
  readonly intercept: number;
}

/** More points than this are thinned: the number of pairs grows quadratically. */
const MOST_POINTS = 120;

/**
 * The line of median slope: the median over all pairs of points, and the median of the residuals as intercept (Theil
 * 1950, Sen 1968). Three points in ten may be wrong. `null` if no two points differ in x.
 */
export function theilSen(points: readonly Point[]): Line | null {
  const slope = medianSlope([points]);
  return slope === null ? null : { slope, intercept: median(points.map((p) => p.y - slope * p.x)) };
}

/**
 * The common slope of several groups of points, each with its own intercept: the median over pairs within the groups.
 * `null` if no pair differs in x by more than `leastX`.
 */
export function medianSlope(groups: readonly (readonly Point[])[], leastX = 0): number | null {
  const slopes: number[] = [];
  for (const group of groups) {
    const step = Math.max(1, Math.ceil(group.length / MOST_POINTS));
    const some = group.filter((_, i) => i % step === 0);
    for (const [i, a] of some.entries()) {
      for (const b of some.slice(i + 1)) if (Math.abs(b.x - a.x) > leastX) slopes.push((b.y - a.y) / (b.x - a.x));
    }
  }
  return slopes.length === 0 ? null : median(slopes);
}
