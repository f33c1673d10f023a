/**
 * Sequential users of time: the order in which they lose least. Every order is tried if there are few; with more, any
 * two are swapped until none lowers the cost. Each user's amount of time is unchanged.
 */
import { itemAt, sum } from '../model/index.js';

/** Up to this many users every order is tried: 720 of them. */
const MOST_TRIED = 6;

/** `amounts[user][slot]`: units of time; every slot's sum and every user's sum are preserved. */
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
  const assess = (users: readonly number[]): Tried => {
    const parts = filled(users, own, room);
    return {
      users,
      parts,
      cost: sum(parts.flatMap((row, user) => row.map(({ slot, amount }) => amount * cost(user, slot)))),
    };
  };
  const users = taken.map((_, user) => user);
  const cheaper = (a: Tried, b: Tried): Tried => (b.cost < a.cost ? b : a);
  if (users.length <= MOST_TRIED) return allocated(permutations(users).map(assess).reduce(cheaper), room.length);
  let best = assess(users);
  for (;;) {
    const next = swaps(best.users).map(assess).reduce(cheaper);
    if (next.cost >= best.cost) return allocated(best, room.length);
    best = next;
  }
}

/** What a user takes of a slot: more than nothing. */
interface Part {
  readonly slot: number;
  readonly amount: number;
}

/** A tried order: of thousands of slots each user has few. */
interface Tried extends Pick<Order, 'users' | 'cost'> {
  readonly parts: readonly (readonly Part[])[];
}

function allocated({ users, parts, cost }: Tried, slots: number): Order {
  const amounts = parts.map((row) => {
    const all = Array.from({ length: slots }, () => 0);
    for (const { slot, amount } of row) all[slot] = amount;
    return all;
  });
  return { users, amounts, cost };
}

/** What each user takes if each takes the slots left by the previous one, slots in order. */
function filled(users: readonly number[], own: readonly number[], room: readonly number[]): Part[][] {
  const parts = own.map((): Part[] => []);
  let slot = -1;
  let free = 0;
  for (const user of users) {
    let wanted = itemAt(own, user);
    while (wanted > 0) {
      while (free <= 0 && ++slot < room.length) free = itemAt(room, slot);
      if (free <= 0) break;
      const amount = Math.min(wanted, free);
      itemAt(parts, user).push({ slot, amount });
      wanted -= amount;
      free -= amount;
    }
  }
  return parts;
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
