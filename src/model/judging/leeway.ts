/**
 * The guaranteed part of an interruption although the train's clock may be slightly off the mount's: the minimum that
 * falls into the exposure for any offset within the tolerance.
 */
import { duration } from '../../vocabulary/index.js';
import type { Activity } from '../activity.js';
import { interval, overlapMs, type Interval } from '../interval.js';

/** Tolerance of the clocks, and the activities within it around the exposure, sorted. */
export interface Leeway {
  readonly ms: number;
  readonly motion: readonly Activity[];
  readonly guidingOff: readonly Activity[];
}

/** Both are on one clock. */
export const NO_LEEWAY: Leeway = { ms: 0, motion: [], guidingOff: [] };

/** The minimum that activities take of an exposure which may be that much earlier or later, ms. */
export function leastTouchedMs(activities: readonly Activity[], exposure: Interval, leewayMs: number): number {
  const touched = (byMs: number): number => {
    const moved = interval(exposure.startMs + byMs, exposure.endMs + byMs);
    return activities.reduce((sum, { span }) => sum + overlapMs(span, moved), 0);
  };
  // Piecewise linear in the shift: the minimum is where two edges meet, or at an end.
  const meetings = activities.flatMap(({ span: { startMs, endMs } }) =>
    [startMs, endMs].flatMap((edgeMs) => [edgeMs - exposure.startMs, edgeMs - exposure.endMs]),
  );
  const shifts = [0, -leewayMs, leewayMs, ...meetings.filter((ms) => Math.abs(ms) <= leewayMs)];
  return shifts.reduce((least, ms) => Math.min(least, touched(ms)), Infinity);
}

/** A record keeps only the evidence. */
const BY_CLOCK = 'and that alone would explain it';

/** Whether a cause is uncertain only because of clocks. */
export function restsOnClock({ evidence }: { readonly evidence: string }): boolean {
  return evidence.includes(BY_CLOCK);
}

/** For evidence, if nothing of the interruption is certain; else empty. */
export function leewayText({ ms }: Leeway, train: string): string {
  return `; the clock of ${train} is known to ${duration(ms)} here, ${BY_CLOCK}`;
}
