import { isSpan } from './kinds/values.js';
import { tookUnit } from './group-names.js';
import type { Slot } from './kinds/kind.js';

/** A field as a formula names it. */
export function formulaName(path: string): string {
  return /^[A-Za-z_]\w*$/.test(path) ? path : `{${path}}`;
}

/** How many seconds a thing took, as a formula. */
export function scaledTook(slot: Slot): string {
  const place = slot.path === null ? 'took' : formulaName(slot.path);
  const unit = tookUnit(slot);
  return unit === null || unit === 1 ? place : `${place} * ${unit}`;
}

/** What a formula calls the value of a slot: the group of this name, or its field; a length of time as seconds. */
export function placeOf({ path, values }: Slot, name: string): string {
  const value = path === null ? name : formulaName(path);
  return values.some(isSpan) ? `duration(${value})` : value;
}
