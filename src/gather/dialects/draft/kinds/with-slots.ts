import type { Kind, Slot } from './kind.js';

/** What slots are called, told of those that they were made of, in the same order. */
export function namesBefore(
  groups: ReadonlyMap<Slot, string>,
  now: readonly Slot[],
  before: readonly Slot[],
): ReadonlyMap<Slot, string> {
  return new Map([...groups].map(([slot, name]) => [before[now.indexOf(slot)] ?? slot, name]));
}

/** A kind whose slots are taken for something else, one for each in the same order; its lines are told as before. */
export function withSlots(kind: Kind, slots: readonly Slot[]): Kind {
  return { ...kind, slots, when: (groups) => kind.when(namesBefore(groups, slots, kind.slots)) };
}
