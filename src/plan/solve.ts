/**
 * The best way through one night: the best row of visits, prices for what is lacking until the relaxed way keeps within
 * the limits, then exchanges of whole stretches, then of a small night all ways, of a large one many at once. What is
 * returned says how far from the best it can be at most.
 */
import { itemAt } from '../model/collections.js';
import { beamSearch } from './beam.js';
import { branchAndBound } from './branch.js';
import { layoutOf } from './gains.js';
import { follow, REST, worthOfWay, type Outcome, type Pick, type Problem } from './problem.js';
import { relaxedBest, type Relaxed } from './relaxed.js';
import { bestVisits, visitBound } from './visits.js';

const ROUNDS = 40;
/** Shares of the tightest prices at which visits are bounded. */
const BOUND_SHARES = [0, 0.3, 0.6, 1];
/** Near enough to the bound to stop looking. */
const CLOSE = 0.002;
/** Sweeps of exchanges at most; each one mends what it finds at once. */
const SWEEPS = 4;

export interface Solution extends Outcome {
  /** Index of the choice in each slot. */
  readonly way: readonly number[];
  /** No way is worth more than this. */
  readonly bound: number;
}

/** Solves a night. */
export function solve(problem: Problem): Solution {
  let way: readonly number[] = problem.slots.map(() => REST);
  let value = 0;
  let bound = Infinity;
  const isClose = (): boolean => value >= bound * (1 - CLOSE);
  const consider = (other: readonly number[]): boolean => {
    const worth = worthOfWay(problem, other);
    if (worth <= value + 1e-9) return false;
    way = other;
    value = worth;
    return true;
  };
  const layout = layoutOf(problem);
  consider(bestVisits(problem, layout));
  let prices = problem.lacking.map(() => 0);
  let tightest: { prices: readonly number[]; relaxed: Relaxed } | null = null;
  let reach = 1.5;
  for (let round = 0; round < ROUNDS && !isClose(); round++) {
    const relaxed = relaxedBest(problem, prices, layout);
    if (relaxed.bound < bound) {
      bound = relaxed.bound;
      tightest = { prices, relaxed };
    } else reach *= 0.8;
    consider(relaxed.way);
    const slope = problem.lacking.map((hours, line) => hours - itemAt(relaxed.used, line));
    const size = slope.reduce((sum, one, line) => sum + (one < 0 || itemAt(prices, line) > 0 ? one ** 2 : 0), 0);
    if (size === 0) break;
    const step = (reach * Math.max(relaxed.bound - value, 1e-6)) / size;
    prices = prices.map((price, line) => Math.max(0, price - step * itemAt(slope, line)));
  }
  // Prices do not see that a visit takes no more than its target lacks: visits at lower prices do.
  for (const share of BOUND_SHARES) {
    if (tightest === null || isClose()) break;
    const lowered = tightest.prices.map((price) => share * price);
    bound = Math.min(bound, visitBound(problem, lowered, layout));
  }
  for (let sweep = 0; sweep < SWEEPS && !isClose(); sweep++) if (!exchange(problem, () => way, consider)) break;
  if (tightest !== null && !isClose()) {
    const all = branchAndBound(problem, tightest.prices, tightest.relaxed.ahead, value);
    if (all.way) consider(all.way);
    // Every way was gone through: none is worth more.
    if (all.isComplete) bound = value;
  }
  if (tightest !== null && !isClose()) {
    const found = beamSearch(problem, tightest.prices, tightest.relaxed.ahead, value);
    if (found) consider(found);
  }
  way = withoutIdlePicks(problem, way);
  return { ...follow(problem, way), way, bound: Math.max(bound, value) };
}

/** A train that adds nothing in a slot rests in it: broadband under the Moon is worth as much as rest, and is none. */
function withoutIdlePicks(problem: Problem, way: readonly number[]): readonly number[] {
  const { added } = follow(problem, way);
  return way.map((index, slot) => {
    const choice = problem.choices[index];
    if (!choice) return index;
    const own = itemAt(added, slot);
    const picks = choice.picks.map((pick, at) => (pick && itemAt(own, at) > 0 ? pick : null));
    if (picks.every((pick) => pick === null)) return index;
    const rested = problem.choices.findIndex(
      (other) => other.target === choice.target && other.picks.every((pick, at) => isSame(pick, itemAt(picks, at))),
    );
    return rested < 0 ? index : rested;
  });
}

/** Tries every choice on every stretch of the night. @returns whether anything was won */
function exchange(
  problem: Problem,
  now: () => readonly number[],
  consider: (way: readonly number[]) => boolean,
): boolean {
  let hasWon = false;
  const count = problem.slots.length;
  for (let start = 0; start < count; start++) {
    const useful = problem.choices.flatMap((_, index) =>
      index === REST || problem.slots[start]?.values[index]?.some((value) => value > 0) ? [index] : [],
    );
    for (let end = start + 1; end <= count; end++) {
      // Stretches begin or end where the way changes, or are short: others are made of these.
      const isEdge = now()[end] !== now()[end - 1] || now()[start] !== now()[start - 1] || end - start <= 2;
      if (!isEdge) continue;
      for (const index of useful) {
        const other = now().map((old, slot) => (slot >= start && slot < end ? index : old));
        if (consider(other)) hasWon = true;
      }
    }
  }
  return hasWon;
}

function isSame(a: Pick | null, b: Pick | null): boolean {
  return a?.line === b?.line && a?.filter === b?.filter;
}
