/**
 * Many ways through the night side by side, slot by slot: those are followed further that could still become the best,
 * by what the rest of the night is worth at most (a beam search under an upper bound).
 */
import { openHours, REST, type Choice, type Problem } from './problem.js';

/** Ways followed side by side. */
const WIDTH = 200;

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
    left.reduce((sum, hours, line) => sum + hours * (prices[line] ?? 0), 0);
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
        const most = value + priceOf(left) + (ahead[slot + 1]?.[index] ?? 0);
        if (most > known + 1e-9) next.push({ way: [...one.way, index], value, left, most });
      });
    }
    beam = next.sort((a, b) => b.most - a.most).slice(0, WIDTH);
  }
  const best = beam.sort((a, b) => b.value - a.value)[0];
  return best && best.value > known ? best.way : null;
}

function step(
  problem: Problem,
  slot: number,
  before: Choice | undefined,
  choice: Choice,
  index: number,
  from: Partial,
): { value: number; left: readonly number[] } {
  const here = problem.slots[slot];
  let { value } = from;
  const left = [...from.left];
  choice.picks.forEach((pick, train) => {
    const worth = here?.values[index]?.[train] ?? 0;
    if (!pick || worth <= 0) return;
    const hours = (here?.rates[index]?.[train] ?? 0) * openHours(problem, slot, before, choice, train);
    const taken = Math.min(left[pick.line] ?? 0, hours);
    left[pick.line] = (left[pick.line] ?? 0) - taken;
    value += worth * taken;
  });
  return { value, left };
}
