import { isSpelt } from './kinds/spelt-lengths.js';
import { tookUnit } from './group-names.js';
import type { Slot } from './kinds/kind.js';

/** A field as written in a formula. */
export function formulaName(path: string): string {
  return /^[A-Za-z_]\w*$/.test(path) ? path : `{${path}}`;
}

/** The formula operand for a slot: the group of this name, or its field; a duration is in seconds. */
export function placeOf(slot: Slot, name: string): string {
  const { path } = slot;
  const value = path === null ? name : formulaName(path);
  return isSpelt(slot) ? `duration(${value})` : value;
}

/** The seconds that a slot states, as a formula. */
export function secondsOf(slot: Slot, name = 'took'): string {
  const place = placeOf(slot, name);
  const unit = tookUnit(slot);
  return unit === null || unit === 1 ? place : `${place} * ${unit}`;
}
