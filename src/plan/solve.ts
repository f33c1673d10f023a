/**
 * The best sequence through one night: the most promising sequences of visits, whose visits are then evaluated closely,
 * until the most promising one is confirmed. The result states its maximum distance from the optimum.
 */
import { groupBy, itemAt } from '../model/collections.js';
import { boardsOf } from './board.js';
import { follow, REST, worthOfWay, type Outcome, type Problem } from './problem.js';
import { bestRows, type Row } from './rows.js';
import { slotPrices, type SlotPrices } from './slot-prices.js';
import { TargetNight, type RowVisit } from './target-night.js';

/** Tolerances relative to the bound at which to stop, as a fraction; and for each visit's value and bound. */
const CLOSE = 0.003;
const VISIT_CLOSE = 0.0005;
/**
 * Beam width for visits, and maximum number of sequence searches: more if fewer leave value and bound further apart
 * than a fraction, and if a slot has few enough choices for it to end in seconds.
 */
const EFFORTS = [
  { far: 0, width: 100, searches: 24, choices: Infinity },
  { far: 0.015, width: 800, searches: 8, choices: 500 },
  { far: 0.03, width: 20_000, searches: 10, choices: 250 },
];
/** Searches between two updates of the slots’ prices. */
const PRICED_EVERY = 8;

export interface Solution extends Outcome {
  /** Index of the choice in each slot. */
  readonly way: readonly number[];
  /** Upper bound for all sequences. */
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

/** Evaluates the visits of a sequence closely. */
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
    // Single ones first: they bound combinations.
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
