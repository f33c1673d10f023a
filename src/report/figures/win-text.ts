import { about, duration, type Finding } from '../../model/index.js';

const HALF_A_MINUTE_MS = 30_000;

/**
 * What can be won back, in words; empty where nothing can. All of a cost stands in the words of the cost: rounded
 * apart, the two would seem to differ.
 */
export function winText({ costMs, winMs = 0 }: Pick<Finding, 'costMs' | 'winMs'>): string {
  if (winMs === 0) return '';
  return Math.abs(costMs - winMs) < HALF_A_MINUTE_MS ? duration(costMs) : about(winMs);
}
