/**
 * All ways through a night, one after another, but for those that can no longer become the best (branch and bound;
 * A. H. Land & A. G. Doig 1960, Econometrica 28, 497). A small night is solved for good by it; of a large one it says
 * nothing.
 */
import { itemAt } from '../model/collections.js';
import { aheadOf } from './relaxed.js';
import { REST, stateOf, step, type Problem } from './problem.js';

/** Steps that each of two searches may take: most promising ways first, and those first that gain most at once. */
const STEPS = [400_000, 200_000] as const;
/** Nights of more slots times choices than this are not tried. */
const SMALL = 600;
const NOTHING = 1e-9;

/** What the search found: the best way, where it beats the known one, and whether it was gone through to its end. */
export interface Branched {
  readonly way: readonly number[] | null;
  readonly isComplete: boolean;
}

/**
 * Searches a small night.
 *
 * @param prices value per hour by line, and `ahead` what the rest is worth at most at these prices
 * @param known value that has to be beaten
 */
export function branchAndBound(
  problem: Problem,
  prices: readonly number[],
  ahead: readonly Float64Array[],
  known: number,
): Branched {
  const { choices, slots } = problem;
  if (choices.length * slots.length > SMALL) return { way: null, isComplete: false };
  const best: Best = { value: known, way: null };
  const orders = [(one: Next) => one.most, (one: Next) => one.value];
  const isComplete = orders.some((order, i) => search(problem, prices, ahead, best, order, itemAt(STEPS, i)));
  return { way: best.way, isComplete };
}

interface Best {
  value: number;
  way: readonly number[] | null;
}

/** A way with one slot more, and what the whole night is worth at most on it. */
interface Next {
  readonly index: number;
  readonly value: number;
  readonly left: readonly number[];
  readonly most: number;
}

/** Goes down the ways in an order; whether it came to the end of them. */
function search(
  problem: Problem,
  prices: readonly number[],
  ahead: readonly Float64Array[],
  best: Best,
  order: (one: Next) => number,
  mostSteps: number,
): boolean {
  const { choices, slots, lacking } = problem;
  const seen = new Map<string, number>();
  let steps = 0;
  const walk = (way: readonly number[], value: number, left: readonly number[]): void => {
    if (steps > mostSteps) return;
    if (value > best.value + NOTHING) {
      best.value = value;
      best.way = [...way, ...slots.slice(way.length).map(() => REST)];
    }
    const slot = way.length;
    if (slot === slots.length) return;
    const last = way.at(-1) ?? -1;
    const key = `${slot} ${stateOf(problem, last, left)}`;
    if ((seen.get(key) ?? -1) >= value - NOTHING) return;
    seen.set(key, value);
    const ways: Next[] = [];
    choices.forEach((choice, index) => {
      steps++;
      const next = step(problem, slot, choices[last], choice, index, { value, left });
      const rest = next.left.reduce((sum, hours, line) => sum + hours * itemAt(prices, line), 0);
      const most = next.value + rest + aheadOf(ahead, slot + 1, index);
      if (most > best.value + NOTHING) ways.push({ index, ...next, most });
    });
    for (const one of ways.sort((a, b) => order(b) - order(a))) {
      if (one.most <= best.value + NOTHING) continue;
      walk([...way, one.index], one.value, one.left);
    }
  };
  walk([], 0, lacking);
  return steps <= mostSteps;
}
