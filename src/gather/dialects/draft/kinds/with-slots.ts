import type { Kind, Slot } from './kind.js';

/** New names for slots, given the original slots in the same order. */
export function namesBefore(
  groups: ReadonlyMap<Slot, string>,
  now: readonly Slot[],
  before: readonly Slot[],
): ReadonlyMap<Slot, string> {
  return new Map([...groups].map(([slot, name]) => [before[now.indexOf(slot)] ?? slot, name]));
}

/** A kind with its slots reinterpreted one by one in the same order; its lines are matched as before. */
export function withSlots(kind: Kind, slots: readonly Slot[]): Kind {
  return { ...kind, slots, when: (groups) => kind.when(namesBefore(groups, slots, kind.slots)) };
}
