/** What each slot gains at prices in place of limits, by the choice and by what changes before it: worked out once. */
import { itemAt } from '../model/collections.js';
import { changeOf, effortOf, openHours, type Change, type Choice, type Problem } from './problem.js';

/** Value of a kept hour above its price, by slot, choice and train. */
export type Margins = readonly (readonly (readonly number[])[])[];

/** What does not follow from prices. */
export interface Layout {
  /** Choices of one target, for each choice. */
  readonly siblings: readonly (readonly number[])[];
  /** Trains whose filter changes from one choice to a sibling (bit n for train n): `changes[before × choices + to]`. */
  readonly changes: Uint8Array;
}

export function layoutOf({ choices }: Problem): Layout {
  const siblings = choices.map(({ target }) =>
    choices.flatMap((other, index) => (other.target === target ? [index] : [])),
  );
  const changes = new Uint8Array(choices.length ** 2);
  choices.forEach((from, before) => {
    for (const to of siblings[before] ?? []) {
      const change = changeOf(from, choices[to] ?? from);
      if (change !== 'target') changes[before * choices.length + to] = change;
    }
  });
  return { siblings, changes };
}

export interface PricedGains {
  readonly margins: Margins;
  /** Gain of a choice in a slot that comes from another target. */
  anew(slot: number, to: number): number;
  /** Gain of a choice in a slot after one of the same target. */
  after(slot: number, before: number, to: number): number;
}

/** @param prices value per hour, by line */
export function pricedGains(problem: Problem, prices: readonly number[], { changes }: Layout): PricedGains {
  const { choices, slots } = problem;
  const margins = slots.map(({ values }) =>
    choices.map(({ picks }, index) =>
      picks.map((pick, train) =>
        pick ? Math.max(0, itemAt(itemAt(values, index), train) - itemAt(prices, pick.line)) : 0,
      ),
    ),
  );
  // Flat, for the program over the night looks up millions: per slot and choice first what a new target gains.
  const kinds = 1 + 2 ** Math.max(0, ...choices.map(({ picks }) => picks.length));
  const gains = new Float64Array(slots.length * choices.length * kinds);
  slots.forEach((_, slot) => {
    choices.forEach((choice, to) => {
      const own = margins[slot]?.[to] ?? [];
      const at = (slot * choices.length + to) * kinds;
      gains[at] = gainOf(problem, slot, to, choice, own, 'target');
      for (let trains = 0; trains < kinds - 1; trains++)
        gains[at + 1 + trains] = gainOf(problem, slot, to, choice, own, trains);
    });
  });
  const count = choices.length;
  return {
    margins,
    anew: (slot, to) => itemAt(gains, (slot * count + to) * kinds),
    after: (slot, before, to) => itemAt(gains, (slot * count + to) * kinds + 1 + itemAt(changes, before * count + to)),
  };
}

function gainOf(
  problem: Problem,
  slot: number,
  to: number,
  choice: Choice,
  margins: readonly number[],
  change: Change,
): number {
  let gain = 0;
  margins.forEach((margin, train) => {
    if (margin > 0) gain += margin * takenHours(problem, slot, to, choice, change, train);
  });
  return gain - effortOf(problem, choice, to, change);
}

/** Hours that a train takes of its line in one slot: never more than the line lacks. */
export function takenHours(
  problem: Problem,
  slot: number,
  index: number,
  choice: Choice,
  change: Change,
  train: number,
): number {
  const pick = choice.picks.at(train);
  if (!pick) return 0;
  const rate = itemAt(itemAt(itemAt(problem.slots, slot).rates, index), train);
  return Math.min(itemAt(problem.lacking, pick.line), rate * openHours(problem, slot, choice, change, train));
}
