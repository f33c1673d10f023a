/**
 * The best way through one night: the rows of visits that promise most, whose visits are then looked at closely, until
 * the row that promises most is one that keeps what it promises. What is returned says how far from the best it can be
 * at most.
 */
import { groupBy, itemAt } from '../model/collections.js';
import { boardsOf } from './board.js';
import { follow, REST, worthOfWay, type Outcome, type Problem } from './problem.js';
import { bestRows, type Row } from './rows.js';
import { slotPrices, type SlotPrices } from './slot-prices.js';
import { TargetNight, type RowVisit } from './target-night.js';

/** Near enough to the bound to stop looking, as a share; and of each visit's value and bound. */
const CLOSE = 0.003;
const VISIT_CLOSE = 0.0005;
/**
 * How many ways side by side through visits, and how often rows are searched for at most: more where fewer leave value
 * and bound further apart than a share, and where a slot has few enough choices for it to end in seconds.
 */
const EFFORTS = [
  { far: 0, width: 100, searches: 24, choices: Infinity },
  { far: 0.015, width: 800, searches: 8, choices: 500 },
  { far: 0.03, width: 20_000, searches: 10, choices: 250 },
];
/** Searches between two reckonings of the slots’ prices. */
const PRICED_EVERY = 8;

export interface Solution extends Outcome {
  /** Index of the choice in each slot. */
  readonly way: readonly number[];
  /** No way is worth more than this. */
  readonly bound: number;
}

/** Solves a night. */
export function solve(problem: Problem): Solution {
  const slots = problem.slots.length;
  const targets = boardsOf(problem).map((board) => new TargetNight(board));
  let way: readonly number[] = problem.slots.map(() => REST);
  let value = 0;
  let bound = Infinity;
  let prices: SlotPrices | null = null;
  for (const { far, width, searches, choices } of EFFORTS) {
    if (value >= bound * (1 - far) - 1e-9 || problem.choices.length > choices) break;
    for (let search = 0; search < searches; search++) {
      const found = bestRows(slots, targets, value, prices);
      bound = Math.min(bound, found.bound);
      if (value >= bound * (1 - CLOSE) - 1e-9) break;
      let hasLearned = false;
      for (const row of far === 0 ? found.rows : found.rows.slice(0, 1)) {
        const looked = lookAt(row, targets, problem, VISIT_CLOSE * Math.max(value, bound / 2), width);
        hasLearned ||= looked.isNew;
        const worth = worthOfWay(problem, looked.way);
        if (worth > value) [way, value] = [looked.way, worth];
      }
      if (!hasLearned && prices !== null) break;
      if (!hasLearned || search % PRICED_EVERY === 1) {
        prices = slotPrices(slots, targets, value);
        bound = Math.min(bound, prices.bound);
      }
    }
  }
  return { ...follow(problem, way), way, bound: Math.max(bound, value) };
}

/** Looks closely at the visits of a row. */
function lookAt(
  { last }: Row,
  targets: readonly TargetNight[],
  { slots }: Problem,
  tolerance: number,
  width: number,
): { readonly way: readonly number[]; readonly isNew: boolean } {
  const visits: RowVisit[] = [];
  for (let visit = last; visit; visit = visit.before) visits.unshift(visit);
  const way = slots.map(() => REST);
  let hasLearned = false;
  for (const [at, visited] of groupBy(visits, (visit) => visit.at)) {
    const target = itemAt(targets, at);
    const cells = visited.map(({ cell }) => cell);
    // The single ones first: they bound the two together.
    const looks = [...(cells.length > 1 ? cells.map((cell) => [cell]) : []), cells].map((one) =>
      target.look(one, tolerance, width),
    );
    hasLearned ||= looks.some(({ isNew }) => isNew);
    const own = itemAt(looks, looks.length - 1).within.way;
    const ofVisits = cells.flatMap((cell) => {
      const { begin, end } = target.spanOf(cell);
      return Array.from({ length: end - begin }, (_, i) => begin + i);
    });
    ofVisits.forEach((slot, i) => {
      way[slot] = itemAt(target.board.choices, itemAt(own, i));
    });
  }
  return { way, isNew: hasLearned };
}
