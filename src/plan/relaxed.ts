/**
 * The best way through a night whose lines have a price an hour in place of a limit (Lagrangian relaxation; A. M.
 * Geoffrion 1974, Mathematical Programming Study 2, 82). Its value, with the price of what is lacking, is never below
 * that of the best way within the limits.
 */
import { itemAt } from '../model/collections.js';
import { pricedGains, takenHours, type Layout, type Margins } from './gains.js';
import { changeOf, REST, type Problem } from './problem.js';

export interface Relaxed {
  readonly way: readonly number[];
  /** No way within the limits is worth more. */
  readonly bound: number;
  /** Hours that the way would take of each line, were there no limit. */
  readonly used: readonly number[];
  /** By slot and the choice before it: what the rest of the night is worth at most, at these prices. */
  readonly ahead: readonly Float64Array[];
}

/** Finds the best way by dynamic programming from the night's end. @param prices value per hour, by line */
export function relaxedBest(problem: Problem, prices: readonly number[], layout: Layout): Relaxed {
  const { choices, slots } = problem;
  const { margins, anew, after: gainAfter } = pricedGains(problem, prices, layout);
  const ahead = slots.map(() => new Float64Array(choices.length));
  const next = slots.map(() => new Int32Array(choices.length));
  let after = new Float64Array(choices.length);
  for (let slot = slots.length - 1; slot >= 0; slot--) {
    const [own, way] = [ahead[slot], next[slot]];
    if (!own || !way) continue;
    // From another target all ways on cost the same change: the best of them is one for all.
    let top = REST;
    let most = itemAt(after, REST);
    for (let to = 1; to < choices.length; to++) {
      const value = anew(slot, to) + itemAt(after, to);
      if (value > most) [most, top] = [value, to];
    }
    own.fill(most);
    way.fill(top);
    for (let before = 1; before < choices.length; before++) {
      for (const to of layout.siblings[before] ?? []) {
        const value = gainAfter(slot, before, to) + itemAt(after, to);
        if (value > itemAt(own, before)) [own[before], way[before]] = [value, to];
      }
    }
    after = own;
  }
  const way: number[] = [];
  for (let slot = 0; slot < slots.length; slot++) way.push(next[slot]?.[way.at(-1) ?? REST] ?? REST);
  const priced = problem.lacking.reduce((sum, hours, line) => sum + hours * itemAt(prices, line), 0);
  return { way, bound: aheadOf(ahead, 0, REST) + priced, used: usedBy(problem, way, margins), ahead };
}

/** What the night is worth at most from a slot on, after a choice: nothing after its last slot. */
export function aheadOf(ahead: readonly Float64Array[], slot: number, before: number): number {
  const own = ahead[slot];
  return own === undefined ? 0 : itemAt(own, before);
}

function usedBy(problem: Problem, way: readonly number[], margins: Margins): number[] {
  const used = problem.lacking.map(() => 0);
  way.forEach((index, slot) => {
    const choice = problem.choices[index];
    const before = slot === 0 ? undefined : problem.choices[way[slot - 1] ?? REST];
    const change = choice ? changeOf(before, choice) : 'target';
    choice?.picks.forEach((pick, train) => {
      if (!pick || itemAt(itemAt(itemAt(margins, slot), index), train) <= 0) return;
      used[pick.line] = itemAt(used, pick.line) + takenHours(problem, slot, index, choice, change, train);
    });
  });
  return used;
}
