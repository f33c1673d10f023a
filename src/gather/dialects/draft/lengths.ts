import { tookUnit } from './group-names.js';
import type { Slot } from './kinds/kind.js';
import { numberIn } from './kinds/values.js';

/** Whether a slot holds a duration. */
export function isOfSeconds(slot: Slot): boolean {
  return slot.type === 'number' && tookUnit(slot) !== null;
}

/** The duration on the nth line, ms; NaN if none. A number without a unit is in seconds. */
export function lengthMs(slot: Slot, nth: number): number {
  return numberIn(slot.perLine[nth]) * (tookUnit(slot) ?? 1) * 1000;
}
