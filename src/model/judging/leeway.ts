/**
 * What is sure of an interruption though the train's clock may be a little off the mount's: the least of it that falls
 * into the exposure, wherever within the leeway the exposure lies.
 */
import { duration } from '../../vocabulary/index.js';
import type { Activity } from '../activity.js';
import { interval, overlapMs, type Interval } from '../interval.js';

/** How far the clocks may be apart, and what surrounds the exposure within that, sorted. */
export interface Leeway {
  readonly ms: number;
  readonly motion: readonly Activity[];
  readonly guidingOff: readonly Activity[];
}

/** One clock tells both. */
export const NO_LEEWAY: Leeway = { ms: 0, motion: [], guidingOff: [] };

/** The least that activities take of an exposure which may lie up to so much earlier or later, ms. */
export function leastTouchedMs(activities: readonly Activity[], exposure: Interval, leewayMs: number): number {
  const touched = (byMs: number): number => {
    const moved = interval(exposure.startMs + byMs, exposure.endMs + byMs);
    return activities.reduce((sum, { span }) => sum + overlapMs(span, moved), 0);
  };
  // Piecewise linear in the shift: the least lies where an edge meets an edge, or at an end.
  const meetings = activities.flatMap(({ span: { startMs, endMs } }) =>
    [startMs, endMs].flatMap((edgeMs) => [edgeMs - exposure.startMs, edgeMs - exposure.endMs]),
  );
  const shifts = [0, -leewayMs, leewayMs, ...meetings.filter((ms) => Math.abs(ms) <= leewayMs)];
  return shifts.reduce((least, ms) => Math.min(least, touched(ms)), Infinity);
}

/** The evidence is all that a record keeps of it. */
const BY_CLOCK = 'and that alone would explain it';

/** Whether a cause is no more than what clocks leave open. */
export function restsOnClock({ evidence }: { readonly evidence: string }): boolean {
  return evidence.includes(BY_CLOCK);
}

/** For evidence, where nothing of the interruption is sure; else empty. */
export function leewayText({ ms }: Leeway, train: string): string {
  return `; the clock of ${train} is known to ${duration(ms)} here, ${BY_CLOCK}`;
}
