/** Which stars of two lists are the same under a similarity, and the best similarity for all of them. */
import type { Similarity } from '../../model/index.js';
import { type Grid, nearest } from './grid.js';
import { fitSimilarity, type Matrix, matrixOf, transform } from './similarity.js';
import type { StarList } from './star-list.js';

/** Matched stars: the first `count` entries; `from` are stars of the list, `to` those of the grid. */
export interface Matches {
  count: number;
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly fromX: Float64Array;
  readonly fromY: Float64Array;
  readonly toX: Float64Array;
  readonly toY: Float64Array;
  readonly weight: Float64Array;
}

/** Capacity for the matches of a list of this many stars. */
export function roomForMatches(stars: number): Matches {
  return {
    count: 0,
    from: new Int32Array(stars),
    to: new Int32Array(stars),
    fromX: new Float64Array(stars),
    fromY: new Float64Array(stars),
    toX: new Float64Array(stars),
    toY: new Float64Array(stars),
    weight: new Float64Array(stars),
  };
}

/** How many stars of a list have a star of the grid within a radius, displaced by (dx, dy) in the grid's plane. */
export function countWithin(list: StarList, grid: Grid, m: Matrix, radiusPx: number, dx = 0, dy = 0): number {
  let count = 0;
  for (let i = 0; i < list.count; i++) {
    const x = m.a * list.x[i]! + m.b * list.y[i]! + m.x0 + dx;
    const y = m.c * list.x[i]! + m.d * list.y[i]! + m.y0 + dy;
    if (nearest(grid, x, y, radiusPx) >= 0) count++;
  }
  return count;
}

/** Pairs each star with the nearest within the radius; of two candidates for the same, the nearer wins. */
export function matchWithin(list: StarList, grid: Grid, similarity: Similarity, radiusPx: number, into: Matches): void {
  const m = matrixOf(similarity);
  const taken = new Int32Array(grid.list.count).fill(-1);
  const squares = into.weight;
  into.count = 0;
  for (let i = 0; i < list.count; i++) {
    const x = m.a * list.x[i]! + m.b * list.y[i]! + m.x0;
    const y = m.c * list.x[i]! + m.d * list.y[i]! + m.y0;
    const star = nearest(grid, x, y, radiusPx);
    if (star < 0) continue;
    const square = (grid.list.x[star]! - x) ** 2 + (grid.list.y[star]! - y) ** 2;
    const before = taken[star]!;
    if (before >= 0 && squares[before]! <= square) continue;
    const at = before >= 0 ? before : into.count++;
    taken[star] = at;
    squares[at] = square;
    into.from[at] = i;
    into.to[at] = star;
  }
  for (let at = 0; at < into.count; at++) {
    const i = into.from[at]!;
    const star = into.to[at]!;
    into.fromX[at] = list.x[i]!;
    into.fromY[at] = list.y[i]!;
    into.toX[at] = grid.list.x[star]!;
    into.toY[at] = grid.list.y[star]!;
    into.weight[at] = 1 / (list.sigma[i]! ** 2 + grid.list.sigma[star]! ** 2);
  }
}

/** Tukey's constant: 95 % of the efficiency of least squares on normal errors (Beaton & Tukey 1974). */
const TUKEY = 4.685;
const ROUNDS = 4;

/** The fit, and the weighted root mean square distance per axis. */
export interface Fit {
  readonly similarity: Similarity;
  readonly residualPx: number;
}

/**
 * The similarity of matched stars: least squares weighted by the expected errors, then again with Tukey's biweight on
 * distances in units of their own spread, so that blends and neighbours lose influence.
 */
export function robustFit(matches: Matches, mirrored: boolean): Fit | null {
  const expected = matches.weight.slice(0, matches.count);
  const distances = new Float64Array(matches.count);
  let similarity = fitSimilarity(matches, mirrored);
  for (let round = 0; similarity !== null && round < ROUNDS && matches.count > 3; round++) {
    fillDistances(matches, similarity, expected, distances);
    // The median distance of a normal scatter in two dimensions is 1.1774 σ.
    const spread = Math.max(medianOf(distances) / 1.1774, 0.05);
    for (let i = 0; i < matches.count; i++) {
      const u = distances[i]! / (TUKEY * spread);
      matches.weight[i] = u < 1 ? expected[i]! * (1 - u * u) ** 2 : 0;
    }
    similarity = fitSimilarity(matches, mirrored);
  }
  return similarity === null ? null : { similarity, residualPx: residualOf(matches, similarity) };
}

function fillDistances(matches: Matches, similarity: Similarity, expected: Float64Array, into: Float64Array): void {
  const m = matrixOf(similarity);
  for (let i = 0; i < matches.count; i++) {
    const dx = m.a * matches.fromX[i]! + m.b * matches.fromY[i]! + m.x0 - matches.toX[i]!;
    const dy = m.c * matches.fromX[i]! + m.d * matches.fromY[i]! + m.y0 - matches.toY[i]!;
    into[i] = Math.sqrt((dx * dx + dy * dy) * expected[i]!);
  }
}

/** Enough for a spread to a few percent. */
const MOST_FOR_SPREAD = 400;

function medianOf(values: Float64Array): number {
  const step = Math.ceil(values.length / MOST_FOR_SPREAD);
  const sorted = step > 1 ? values.filter((_, i) => i % step === 0).sort() : values.slice().sort();
  return sorted[sorted.length >> 1] ?? 0;
}

function residualOf(matches: Matches, similarity: Similarity): number {
  let squares = 0;
  let weights = 0;
  for (let i = 0; i < matches.count; i++) {
    const there = transform(similarity, { x: matches.fromX[i]!, y: matches.fromY[i]! });
    squares += matches.weight[i]! * ((there.x - matches.toX[i]!) ** 2 + (there.y - matches.toY[i]!) ** 2);
    weights += matches.weight[i]!;
  }
  return weights > 0 ? Math.sqrt(squares / weights / 2) : 0;
}
