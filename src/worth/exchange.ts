/**
 * Shares out slots of time among users at the least cost: a transportation problem. Starting from an order that
 * works, chains of exchanges are carried out until none lowers the cost (M. Klein 1967, Management Science 14, 205:
 * negative cycles; here between users, of whom there are few). The amounts everyone gets stay as they were.
 */
import { itemAt } from '../model/index.js';

/** Costs closer than this, per unit of time, are the same. */
const SAME = 1e-9;

/** `amounts[user][slot]`: whole units of time; every slot's sum and every user's sum are kept. */
export type Allocation = readonly (readonly number[])[];

/**
 * The cheapest allocation with the same sums.
 *
 * @param start whole, non-negative amounts per user and slot
 * @param cost cost of a unit of a user's time in a slot
 */
export function cheapest(start: Allocation, cost: (user: number, slot: number) => number): number[][] {
  const amounts = start.map((row) => [...row]);
  const slots = start[0]?.length ?? 0;
  const costs = start.map((_row, user) => Array.from({ length: slots }, (_none, slot) => cost(user, slot)));
  for (;;) {
    const cycle = negativeCycle(amounts.length, (from, to) => cheapestMove(amounts, costs, from, to));
    if (!cycle) return amounts;
    const size = Math.min(...cycle.map(({ from, slot }) => itemAt(itemAt(amounts, from), slot)));
    for (const { from, to, slot } of cycle) {
      move(amounts, from, slot, -size);
      move(amounts, to, slot, size);
    }
  }
}

/** Giving time of one user in a slot to another. */
interface Move {
  readonly from: number;
  readonly to: number;
  readonly slot: number;
  /** Change of cost per unit of time. */
  readonly change: number;
}

function move(amounts: number[][], user: number, slot: number, by: number): void {
  const row = itemAt(amounts, user);
  row[slot] = itemAt(row, slot) + by;
}

function cheapestMove(amounts: readonly number[][], costs: readonly number[][], from: number, to: number): Move | null {
  const [own, gives, takes] = [itemAt(amounts, from), itemAt(costs, from), itemAt(costs, to)];
  let best: Move | null = null;
  for (let slot = 0; slot < own.length; slot++) {
    if (itemAt(own, slot) <= 0) continue;
    const change = itemAt(takes, slot) - itemAt(gives, slot);
    if (!best || change < best.change) best = { from, to, slot, change };
  }
  return best;
}

/** A round of moves that lowers the cost, by the Bellman–Ford method over the users; `null` when there is none. */
function negativeCycle(users: number, edge: (from: number, to: number) => Move | null): Move[] | null {
  const moves: Move[] = [];
  for (let from = 0; from < users; from++) {
    for (let to = 0; to < users; to++) {
      const best = from === to ? null : edge(from, to);
      if (best) moves.push(best);
    }
  }
  const distance = new Array<number>(users).fill(0);
  const into = new Array<Move | undefined>(users).fill(undefined);
  let last: number | null = null;
  for (let round = 0; round < users; round++) {
    last = null;
    for (const one of moves) {
      const reached = itemAt(distance, one.from) + one.change;
      if (reached < itemAt(distance, one.to) - SAME) {
        distance[one.to] = reached;
        into[one.to] = one;
        last = one.to;
      }
    }
    if (last === null) return null;
  }
  return last === null ? null : cycleThrough(last, into);
}

function cycleThrough(start: number, into: readonly (Move | undefined)[]): Move[] | null {
  // As many steps back as there are users lead into the cycle, wherever the walk began.
  let user = start;
  for (let step = 0; step < into.length; step++) user = into[user]?.from ?? user;
  const cycle: Move[] = [];
  for (let at = user; ; ) {
    const one = into[at];
    if (!one) return null;
    cycle.push(one);
    at = one.from;
    if (at === user) break;
  }
  // The sum may be lost in rounding; without this, two orders of one cost could be exchanged for ever.
  return cycle.reduce((sum, { change }) => sum + change, 0) < -SAME ? cycle : null;
}
