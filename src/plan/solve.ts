/**
 * The best way through one night: the row of visits that promises most, whose visits are then looked at closely, until
 * the row that promises most is one that keeps what it promises. Where rows do not tell, all ways side by side. What is
 * returned says how far from the best it can be at most.
 */
import { itemAt } from '../model/collections.js';
import { boardsOf } from './board.js';
import { follow, REST, worthOfWay, type Outcome, type Pick, type Problem } from './problem.js';
import { bestRow } from './rows.js';
import { nightSpace } from './space.js';
import { TargetNight } from './target-night.js';
import { bestWithin } from './within.js';

/** Rows looked at, at most. */
const ROWS = 100;
/** Near enough to the bound to stop looking, as a share; and of each visit's value and bound. */
const CLOSE = 0.002;
const VISIT_CLOSE = 0.0005;
/** Targets at most whose several visits are told from single ones: each makes the rows four times as many. */
const MOST_SHARING = 3;
/** Rounds of prices for the whole night, and ways through it side by side times choices at most. */
const NIGHT_ROUNDS = 20;
const NIGHT_WIDTH = 40_000;

export interface Solution extends Outcome {
  /** Index of the choice in each slot. */
  readonly way: readonly number[];
  /** No way is worth more than this. */
  readonly bound: number;
}

/** Solves a night. */
export function solve(problem: Problem): Solution {
  const slots = problem.slots.length;
  const boards = boardsOf(problem);
  const targets = boards.map((board) => new TargetNight(board));
  let way: readonly number[] = problem.slots.map(() => REST);
  let value = 0;
  let bound = Infinity;
  const isClose = (): boolean => value >= bound * (1 - CLOSE) - 1e-9;
  const consider = (other: readonly number[]): void => {
    const worth = worthOfWay(problem, other);
    if (worth > value) [way, value] = [other, worth];
  };
  for (let round = 0; round < ROWS; round++) {
    const row = bestRow(slots, targets);
    bound = Math.min(bound, row.bound);
    if (isClose()) break;
    let hasLearned = false;
    const found = problem.slots.map(() => REST);
    targets.forEach((target, at) => {
      const visits = row.visits.filter((visit) => visit.at === at);
      if (visits.length === 0) return;
      const maySeparate = targets.filter((other) => other.several !== null).length < MOST_SHARING;
      const { within, isNew } = target.look(visits, VISIT_CLOSE * Math.max(value, row.bound / 2), maySeparate);
      hasLearned ||= isNew;
      const slotsOf = visits.flatMap(({ begin, end }) => Array.from({ length: end - begin }, (_, i) => begin + i));
      slotsOf.forEach((slot, i) => {
        const deed = itemAt(within.way, i);
        if (deed) found[slot] = itemAt(target.board.choices, deed.choice);
      });
    });
    consider(found);
    if (!hasLearned) break;
  }
  if (!isClose() && boards.length > 0) {
    const within = bestWithin(nightSpace(boards, slots), {
      tolerance: 1e-9 + CLOSE * value,
      rounds: NIGHT_ROUNDS,
      width: Math.ceil(NIGHT_WIDTH / problem.choices.length),
      known: value,
    });
    bound = Math.min(bound, within.bound);
    consider(within.way.map((deed) => (deed ? itemAt(itemAt(boards, deed.field).choices, deed.choice) : REST)));
  }
  way = withoutIdlePicks(problem, way);
  return { ...follow(problem, way), way, bound: Math.max(bound, value) };
}

/** A train that adds nothing in a slot rests in it. */
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

function isSame(a: Pick | null, b: Pick | null): boolean {
  return a?.line === b?.line && a?.filter === b?.filter;
}
