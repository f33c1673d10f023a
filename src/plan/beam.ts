/**
 * Many ways through the night side by side, slot by slot: those are followed further that could still become the best,
 * by what the rest of the night is worth at most (a beam search under an upper bound).
 */
import { itemAt } from '../model/collections.js';
import { aheadOf } from './relaxed.js';
import { REST, stateOf, step, type Problem } from './problem.js';

/** Ways followed side by side at the least, and steps that a whole search may take: wide for a small night. */
const LEAST_WIDTH = 200;
const STEPS = 300_000;

interface Partial {
  readonly way: readonly number[];
  readonly value: number;
  readonly left: readonly number[];
  /** No way that begins so is worth more. */
  readonly most: number;
}

/**
 * Searches for a way worth more than one that is known.
 *
 * @param prices value per hour by line, and `ahead` what the rest is worth at most at these prices
 * @param known value that has to be beaten
 */
export function beamSearch(
  problem: Problem,
  prices: readonly number[],
  ahead: readonly Float64Array[],
  known: number,
): readonly number[] | null {
  const { choices, slots, lacking } = problem;
  const priceOf = (left: readonly number[]): number =>
    left.reduce((sum, hours, line) => sum + hours * itemAt(prices, line), 0);
  const width = Math.max(LEAST_WIDTH, Math.floor(STEPS / (Math.max(1, slots.length) * choices.length)));
  let beam: Partial[] = [{ way: [], value: 0, left: lacking, most: Infinity }];
  for (let slot = 0; slot < slots.length; slot++) {
    const next: Partial[] = [];
    for (const one of beam) {
      const before = choices[one.way.at(-1) ?? -1];
      choices.forEach((choice, index) => {
        const isUseful =
          index === REST || index === one.way.at(-1) || slots[slot]?.values[index]?.some((value) => value > 0);
        if (!isUseful) return;
        const { value, left } = step(problem, slot, before, choice, index, one);
        const most = value + priceOf(left) + aheadOf(ahead, slot + 1, index);
        if (most > known + 1e-9) next.push({ way: [...one.way, index], value, left, most });
      });
    }
    beam = distinct(
      problem,
      next.sort((a, b) => b.most - a.most || b.value - a.value),
      width,
    );
  }
  const best = beam.sort((a, b) => b.value - a.value)[0];
  return best && best.value > known ? best.way : null;
}

/** The first ways, of those that end alike and leave the same hours only the first. */
function distinct(problem: Problem, ways: readonly Partial[], width: number): Partial[] {
  const seen = new Set<string>();
  const first: Partial[] = [];
  for (const one of ways) {
    if (first.length === width) break;
    const state = stateOf(problem, one.way.at(-1) ?? REST, one.left);
    if (seen.has(state)) continue;
    seen.add(state);
    first.push(one);
  }
  return first;
}
