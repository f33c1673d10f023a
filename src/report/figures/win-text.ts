import { about, duration, type Finding } from '../../model/index.js';

const HALF_A_MINUTE_MS = 30_000;

/**
 * What can be recovered, in words; empty if nothing. A full recovery repeats the wording of the cost: rounded
 * separately, the two would seem to differ.
 */
export function winText({ costMs, winMs = 0 }: Pick<Finding, 'costMs' | 'winMs'>): string {
  if (winMs === 0) return '';
  return Math.abs(costMs - winMs) < HALF_A_MINUTE_MS ? duration(costMs) : about(winMs);
}
