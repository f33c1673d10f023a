/** How likely two unrelated fields match as well as these do. */
import type { Similarity } from '../../model/index.js';
import { areaOf, type StarList } from './star-list.js';
import type { Grid } from './grid.js';
import { countWithin } from './matching.js';
import { matrixOf } from './similarity.js';

/** Above this nothing is accepted: a thousand frames a night would give one false match in a thousand nights. */
export const MOST_FALSE_ALARM = 1e-6;
/** The triangle behind the hypothesis matches by construction. */
const STARS_OF_THE_IDEA = 3;
/** Displacements in the grid's plane at which matches can only be chance: rings far beyond the radius. */
const DECOY_RADII = [5, 8, 12, 18];
const DECOY_DIRECTIONS = 8;

/**
 * Upper estimate of the probability that a random field matches `matched` stars or more: the Poisson tail of the stars
 * beyond the three of the triangle, times the number of triangles tried. The rate of chance matches is the larger of
 * that for evenly spread stars and that measured on the lists themselves, displaced: in a cluster the stars of both
 * lists are concentrated, and only the second accounts for it.
 */
export function falseAlarmOf(
  list: StarList,
  grid: Grid,
  similarity: Similarity,
  radiusPx: number,
  matched: number,
  trials: number,
): number {
  const even = evenChance(list, grid.list, radiusPx);
  const rate = Math.max(even, decoyRate(list, grid, similarity, radiusPx));
  return Math.min(1, Math.max(1, trials) * poissonTail(rate, matched - STARS_OF_THE_IDEA));
}

/** Expected chance matches with stars spread evenly over the rectangle they fill. */
export function evenChance(list: StarList, reference: StarList, radiusPx: number): number {
  return (list.count * reference.count * Math.PI * radiusPx * radiusPx) / areaOf(reference);
}

function decoyRate(list: StarList, grid: Grid, similarity: Similarity, radiusPx: number): number {
  const m = matrixOf(similarity);
  let total = 0;
  for (const radii of DECOY_RADII) {
    for (let k = 0; k < DECOY_DIRECTIONS; k++) {
      const angle = (2 * Math.PI * (k + radii / 20)) / DECOY_DIRECTIONS;
      const away = radii * Math.max(radiusPx, 1);
      total += countWithin(list, grid, m, radiusPx, away * Math.cos(angle), away * Math.sin(angle));
    }
  }
  return total / (DECOY_RADII.length * DECOY_DIRECTIONS);
}

/** P(K ≥ k) of a Poisson count with this mean; 1 for k ≤ 0. */
export function poissonTail(mean: number, k: number): number {
  if (k <= 0) return 1;
  if (!(mean > 0)) return 0;
  // The series from k on, by its first term: far in the tail, 1 minus the rest would be rounded to zero.
  let logTerm = -mean + k * Math.log(mean);
  for (let i = 2; i <= k; i++) logTerm -= Math.log(i);
  let sum = 0;
  let term = 1;
  for (let i = k; term > 1e-12 * sum || i < mean; i++) {
    sum += term;
    term *= mean / (i + 1);
    if (i > k + 10_000) break;
  }
  return Math.min(1, Math.exp(logTerm + Math.log(sum)));
}
