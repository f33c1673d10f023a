/**
 * Clocks that agree, shown by what dithers waited for: if the mount always moves at the very instant a companion is
 * ready, its program begins late afterwards. If the clock were ahead by that delay, the mount would wait that long for
 * nothing, every time, to the second.
 */
import { LATE_START_MS, partitionPoint } from '../../model/index.js';
import type { ClockEvidence } from './likelihood.js';

/** A mount that waits for a train moves this soon after it is ready; maximum delay in logging readiness, ms. */
const AT_ONCE_MS = 1500;
const WRITTEN_LATE_MS = 300;
/** Fewer dithers, or a smaller fraction of them, may coincide by chance. */
const FEWEST_HELD = 6;
const LEAST_SHARE = 0.5;

/** The preferred offset at which most dithers began as soon as this train was ready; `undefined` if there is none. */
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
