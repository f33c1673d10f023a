import { tookUnit } from './group-names.js';
import type { Slot } from './kinds/kind.js';
import { numberIn } from './kinds/values.js';

/** Whether a slot holds how long something takes or took. */
export function isOfSeconds(slot: Slot): boolean {
  return slot.type === 'number' && tookUnit(slot) !== null;
}

/** How long the nth line says, ms; NaN where it says nothing. A number without a unit is one of seconds. */
export function lengthMs(slot: Slot, nth: number): number {
  return numberIn(slot.perLine[nth]) * (tookUnit(slot) ?? 1) * 1000;
}
