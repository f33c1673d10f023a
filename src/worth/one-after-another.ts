/**
 * Users of time one after the other: the order in which they lose least. Every order is tried where there are few; of
 * more, any two change places until none lowers the cost. Each user's amount of time stays as it was.
 */
import { itemAt, sum } from '../model/index.js';

/** Up to so many users every order is tried: 720 of them. */
const MOST_TRIED = 6;

/** `amounts[user][slot]`: units of time; every slot's sum and every user's sum are kept. */
export type Allocation = readonly (readonly number[])[];

export interface Order {
  /** Users, first to last. */
  readonly users: readonly number[];
  readonly amounts: Allocation;
  readonly cost: number;
}

/**
 * The order that costs least.
 *
 * @param taken amounts per user and slot as they were, slots in order of time
 * @param cost cost of a unit of a user's time in a slot
 */
export function cheapestOrder(taken: Allocation, cost: (user: number, slot: number) => number): Order {
  const own = taken.map(sum);
  const room = (taken[0] ?? []).map((_, slot) => sum(taken.map((row) => itemAt(row, slot))));
  const assess = (users: readonly number[]): Order => {
    const amounts = filled(users, own, room);
    return {
      users,
      amounts,
      cost: sum(
        amounts.flatMap((row, user) => row.map((amount, slot) => (amount > 0 ? amount * cost(user, slot) : 0))),
      ),
    };
  };
  const users = taken.map((_, user) => user);
  const cheaper = (a: Order, b: Order): Order => (b.cost < a.cost ? b : a);
  if (users.length <= MOST_TRIED) return permutations(users).map(assess).reduce(cheaper);
  let best = assess(users);
  for (;;) {
    const next = swaps(best.users).map(assess).reduce(cheaper);
    if (next.cost >= best.cost) return best;
    best = next;
  }
}

/** Amounts where each user takes the slots that the one before left. */
function filled(users: readonly number[], own: readonly number[], room: readonly number[]): number[][] {
  const amounts = own.map(() => room.map(() => 0));
  const open = room.map((free, slot) => ({ slot, free })).filter(({ free }) => free > 0);
  for (const user of users) {
    let wanted = itemAt(own, user);
    for (let next = open[0]; next !== undefined && wanted > 0; next = open[0]) {
      const part = Math.min(wanted, next.free);
      itemAt(amounts, user)[next.slot] = part;
      wanted -= part;
      next.free -= part;
      if (next.free <= 0) open.shift();
    }
  }
  return amounts;
}

function permutations(users: readonly number[]): number[][] {
  if (users.length <= 1) return [[...users]];
  return users.flatMap((first) => permutations(users.filter((u) => u !== first)).map((rest) => [first, ...rest]));
}

function swaps(users: readonly number[]): number[][] {
  return users.flatMap((a, i) =>
    users.slice(i + 1).map((b) => users.map((user) => (user === a ? b : user === b ? a : user))),
  );
}
