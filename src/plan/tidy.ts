/** A sequence made practical: nothing on a train that adds nothing, no filter for half an hour without need. */
import { itemAt } from '../model/collections.js';
import { LEAST_LACKING_HOURS } from './practice.js';
import { follow, worthOfWay, type Choice, type Pick, type Problem } from './problem.js';

/** A shorter run of a filter on a train needs a reason, hours. */
const LEAST_RUN_HOURS = 1 - 1e-6;
/** Share of the night’s worth that short runs may be given up for, all together: for more they stay. */
const MOST_GIVEN_UP = 0.007;

/** The sequence without picks that add nothing, and without short runs next to which another filter can continue. */
export function tidied(problem: Problem, way: readonly number[]): readonly number[] {
  const useful = withoutIdlePicks(problem, way);
  const floor = (1 - MOST_GIVEN_UP) * worthOfWay(problem, useful);
  const trains = Math.max(...problem.choices.map(({ picks }) => picks.length));
  let tidy = useful;
  for (let train = 0; train < trains; train++) tidy = withoutShortRuns(problem, tidy, train, floor);
  return tidy === useful ? useful : withoutIdlePicks(problem, tidy);
}

/** A train that adds nothing in a slot is idle in it. */
function withoutIdlePicks(problem: Problem, way: readonly number[]): readonly number[] {
  const { added } = follow(problem, way);
  return way.map((index, slot) => {
    const own = itemAt(added, slot);
    return withPicks(problem, index, (pick, train) => (itemAt(own, train) > 0 ? pick : null)) ?? index;
  });
}

/**
 * The filter before or after it continues instead if possible, else the train is idle: whichever has more value. A goal
 * that needs less than an hour may have a short run, and so may anything whose replacement would cost too much.
 */
function withoutShortRuns(problem: Problem, way: readonly number[], train: number, floor: number): readonly number[] {
  let tidy = way;
  const filterAt = (slot: number): Pick | null => choiceAt(problem, tidy, slot)?.picks.at(train) ?? null;
  const targetAt = (slot: number): number => choiceAt(problem, tidy, slot)?.target ?? -1;
  for (let begin = 0; begin < way.length; ) {
    const pick = filterAt(begin);
    let end = begin + 1;
    while (end < way.length && targetAt(end) === targetAt(begin) && filterAt(end)?.filter === pick?.filter) end++;
    const hours = problem.slots.slice(begin, end).reduce((sum, slot) => sum + slot.hours, 0);
    if (
      pick !== null &&
      hours < LEAST_RUN_HOURS &&
      itemAt(follow(problem, tidy).left, pick.line) >= LEAST_LACKING_HOURS
    )
      tidy = insteadOf(
        problem,
        tidy,
        train,
        [begin, end],
        floor,
        [begin - 1, end].flatMap((beside) => {
          const other = targetAt(beside) === targetAt(begin) ? filterAt(beside) : null;
          return other !== null && isHad(problem, targetAt(begin), train, other, begin, end) ? [other] : [];
        }),
      );
    begin = end;
  }
  return tidy;
}

/** The way with the best of these picks, or none, on a train in a run; as it was where that is worth too little. */
function insteadOf(
  problem: Problem,
  way: readonly number[],
  train: number,
  [begin, end]: readonly [number, number],
  floor: number,
  others: readonly Pick[],
): readonly number[] {
  if (others.length === 0) return way;
  let best = way;
  let most = floor;
  for (const other of [...others, null]) {
    const tried = way.map((index, slot) =>
      slot < begin || slot >= end
        ? index
        : (withPicks(problem, index, (own, at) => (at === train ? other : own)) ?? index),
    );
    const worth = worthOfWay(problem, tried);
    if (worth >= most) [best, most] = [tried, worth];
  }
  return best;
}

/** Whether a pick has value throughout. */
function isHad({ choices, slots }: Problem, target: number, train: number, pick: Pick, begin: number, end: number) {
  const index = choices.findIndex((choice) => choice.target === target && isSame(choice.picks.at(train) ?? null, pick));
  return index >= 0 && slots.slice(begin, end).every((slot) => itemAt(itemAt(slot.values, index), train) > 0);
}

function choiceAt({ choices }: Problem, way: readonly number[], slot: number): Choice | undefined {
  const index = way.at(slot);
  return slot < 0 || index === undefined ? undefined : choices[index];
}

/** The choice of the same target with other picks; `null` where there is none, or nothing would be left of it. */
function withPicks(
  { choices }: Problem,
  index: number,
  change: (pick: Pick, train: number) => Pick | null,
): number | null {
  const choice = choices[index];
  if (!choice) return null;
  const picks = choice.picks.map((pick, train) => (pick ? change(pick, train) : null));
  if (picks.every((pick) => pick === null)) return null;
  const found = choices.findIndex(
    (other) => other.target === choice.target && other.picks.every((pick, train) => isSame(pick, itemAt(picks, train))),
  );
  return found < 0 ? null : found;
}

function isSame(a: Pick | null, b: Pick | null): boolean {
  return a?.line === b?.line && a?.filter === b?.filter;
}
