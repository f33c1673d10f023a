/**
 * Clocks that agree by what a dither waited for: where the mount moves at the very instant at which a companion is
 * ready, time after time, its program begins late afterwards. A clock that is ahead by as much would have the mount
 * wait as long for nothing, every time, to the second.
 */
import { LATE_START_MS, partitionPoint } from '../../model/index.js';
import type { ClockEvidence } from './likelihood.js';

/** A mount that waits for a train moves so soon after it is ready, and readiness is written so much too late, ms. */
const AT_ONCE_MS = 1500;
const WRITTEN_LATE_MS = 300;
/** Fewer dithers than this, or less of them, may have fallen so by chance. */
const FEWEST_HELD = 6;
const LEAST_SHARE = 0.5;

/** The favoured offset at which most dithers began as soon as this train was ready; `undefined` where none is. */
export function anchoredMs({ shutters, pauses, favouredMs }: ClockEvidence, offsetMs: number): number | undefined {
  return favouredMs.find((atMs) => {
    if (offsetMs - atMs <= 0 || offsetMs - atMs > LATE_START_MS) return false;
    const held = pauses.filter(({ moveMs, by }) => {
      const byOwnMs = moveMs + atMs;
      const last = shutters[partitionPoint(shutters, (s) => s.beginMs >= byOwnMs) - 1];
      const sinceMs = last === undefined ? NaN : byOwnMs - last.readyMs;
      return by === 'log' && sinceMs >= -WRITTEN_LATE_MS && sinceMs <= AT_ONCE_MS;
    });
    return held.length >= FEWEST_HELD && held.length >= LEAST_SHARE * pauses.length;
  });
}
