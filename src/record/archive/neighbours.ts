/** Which nights may share a frame. */
import type { SummedNight } from './sum-file.js';

type Begins = SummedNight['begins'];

/** A frame has one begin, in whichever record: records of disjoint spans share none. */
export function mayShare([firstA, lastA]: Begins, [firstB, lastB]: Begins): boolean {
  return firstA <= lastB && firstB <= lastA;
}

/** Days between two nights. */
export function daysApart(a: string, b: string): number {
  return Math.abs(Date.parse(`${a}T00:00:00Z`) - Date.parse(`${b}T00:00:00Z`)) / 86_400_000;
}
