/**
 * The best way through a night whose lines have a price an hour in place of a limit (Lagrangian relaxation; A. M.
 * Geoffrion 1974, Mathematical Programming Study 2, 82). Its value, with the price of what is lacking, is never below
 * that of the best way within the limits.
 */
import { openHours, REST, type Choice, type Problem } from './problem.js';

export interface Relaxed {
  readonly way: readonly number[];
  /** No way within the limits is worth more. */
  readonly bound: number;
  /** Hours that the way would take of each line, were there no limit. */
  readonly used: readonly number[];
  /** By slot and the choice before it: what the rest of the night is worth at most, at these prices. */
  readonly ahead: readonly Float64Array[];
}

/** Value of an hour of the clock above its price, by slot, choice and train. */
type Margins = readonly (readonly (readonly number[])[])[];

/** Finds the best way by dynamic programming from the night's end. @param prices value per hour, by line */
export function relaxedBest(problem: Problem, prices: readonly number[]): Relaxed {
  const { choices, slots } = problem;
  const siblings = byTarget(choices);
  const margins = marginsOf(problem, prices);
  const gain = (slot: number, before: number, to: number): number => {
    const choice = choices[to];
    const margin = margins[slot]?.[to];
    if (!choice || !margin) return 0;
    let sum = 0;
    for (let train = 0; train < margin.length; train++) {
      const per = margin.at(train) ?? 0;
      if (per > 0) sum += per * openHours(problem, slot, choices[before], choice, train);
    }
    return sum;
  };
  const ahead = slots.map(() => new Float64Array(choices.length));
  const next = slots.map(() => new Int32Array(choices.length));
  let after = new Float64Array(choices.length);
  for (let slot = slots.length - 1; slot >= 0; slot--) {
    const [own, way] = [ahead[slot], next[slot]];
    if (!own || !way) continue;
    // From another target all ways on cost the same change: the best of them is one for all.
    let top = REST;
    let most = after[REST] ?? 0;
    for (let to = 1; to < choices.length; to++) {
      const value = gain(slot, REST, to) + (after[to] ?? 0);
      if (value > most) [most, top] = [value, to];
    }
    own.fill(most);
    way.fill(top);
    for (let before = 1; before < choices.length; before++) {
      for (const to of siblings.get(choices[before]?.target ?? -1) ?? []) {
        const value = gain(slot, before, to) + (after[to] ?? 0);
        if (value > (own[before] ?? 0)) [own[before], way[before]] = [value, to];
      }
    }
    after = own;
  }
  const way: number[] = [];
  for (let slot = 0; slot < slots.length; slot++) way.push(next[slot]?.[way.at(-1) ?? REST] ?? REST);
  const priced = problem.lacking.reduce((sum, hours, line) => sum + hours * (prices[line] ?? 0), 0);
  return { way, bound: (ahead[0]?.[REST] ?? 0) + priced, used: usedBy(problem, way, margins), ahead };
}

function marginsOf({ slots, choices }: Problem, prices: readonly number[]): Margins {
  return slots.map((slot) =>
    choices.map(({ picks }, index) =>
      picks.map((pick, train) =>
        pick
          ? Math.max(0, (slot.values[index]?.[train] ?? 0) - (prices[pick.line] ?? 0)) *
            (slot.rates[index]?.[train] ?? 0)
          : 0,
      ),
    ),
  );
}

function byTarget(choices: readonly Choice[]): Map<number, number[]> {
  const members = new Map<number, number[]>();
  choices.forEach(({ target }, index) => {
    const own = members.get(target);
    if (own) own.push(index);
    else members.set(target, [index]);
  });
  return members;
}

function usedBy(problem: Problem, way: readonly number[], margins: Margins): number[] {
  const used = problem.lacking.map(() => 0);
  way.forEach((index, slot) => {
    const choice = problem.choices[index];
    choice?.picks.forEach((pick, train) => {
      if (!pick || !((margins[slot]?.[index]?.[train] ?? 0) > 0)) return;
      const before = slot === 0 ? undefined : problem.choices[way[slot - 1] ?? REST];
      const rate = problem.slots[slot]?.rates[index]?.[train] ?? 0;
      used[pick.line] = (used[pick.line] ?? 0) + rate * openHours(problem, slot, before, choice, train);
    });
  });
  return used;
}
