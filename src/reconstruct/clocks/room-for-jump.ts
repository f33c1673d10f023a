/**
 * Whether a large jump of a clock leaves the necessary traces: a clock set forward skips times at which nothing is
 * written, and one set back writes some of them twice.
 */
import { interval, itemAt, type Interval } from '../../model/index.js';
import type { JumpInDithers } from './jump.js';
import type { ClockEvidence } from './likelihood.js';

/** A smaller change may hide in a pause of the recorded activity (common practice, no source), ms. */
const HIDDEN_MS = 900_000;
/** Resolution of times written to the second, ms. */
const ROUNDING_MS = 2000;
/** Tolerance for the time of a jump inferred from dithers, ms. */
const ABOUT_MS = 3_600_000;

/** Whether a jump inferred from dithers is possible: if it is large, one of the two clocks has its traces. */
export function hasRoomFor(
  { beforeMs, afterMs, between }: JumpInDithers,
  { shutters, pauses }: ClockEvidence,
): boolean {
  const byMs = afterMs - beforeMs;
  if (Math.abs(byMs) <= HIDDEN_MS) return true;
  // Either clock may have been set: the stream’s in one direction, or the reference’s in the other.
  if (byMs < 0) {
    const moves = pauses.map(({ moveMs }) => moveMs);
    return leapsOver(-byMs, moves, between) || shutters.some((s, i) => i > 0 && isTwice(itemAt(shutters, i - 1), s));
  }
  const begins = shutters.map(({ beginMs }) => beginMs);
  return leapsOver(byMs, begins, interval(between.startMs + beforeMs, between.endMs + afterMs));
}

/** Whether there is a period of this length without any entry somewhere in a span. */
function leapsOver(byMs: number, instants: readonly number[], { startMs, endMs }: Interval): boolean {
  return instants.some((atMs, i) => {
    const beforeMs = instants[i - 1];
    return (
      beforeMs !== undefined &&
      atMs >= startMs - ABOUT_MS &&
      beforeMs <= endMs + ABOUT_MS &&
      atMs - beforeMs >= byMs - ROUNDING_MS
    );
  });
}

/** Whether one camera seems to take two exposures simultaneously. */
function isTwice(a: { readonly endMs: number }, b: { readonly beginMs: number }): boolean {
  return a.endMs - b.beginMs > ROUNDING_MS;
}
