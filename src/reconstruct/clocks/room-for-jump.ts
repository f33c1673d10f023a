/**
 * Whether a large jump of a clock leaves the traces that it must: a clock set forward passes over times that nothing
 * is written at, and one set back writes some of them twice.
 */
import { interval, itemAt, type Interval } from '../../model/index.js';
import type { JumpInDithers } from './jump.js';
import type { ClockEvidence } from './likelihood.js';

/** A clock set by less may hide in a pause of what it times (common practice, no source), ms. */
const HIDDEN_MS = 900_000;
/** What is written to the second, ms. */
const ROUNDING_MS = 2000;
/** A jump that dithers tell may lie some of them sooner or later than they say, ms. */
const ABOUT_MS = 3_600_000;

/** Whether what the dithers tell of a jump can be: where it is large, one of the two clocks has its traces. */
export function hasRoomFor(
  { beforeMs, afterMs, between }: JumpInDithers,
  { shutters, pauses }: ClockEvidence,
): boolean {
  const byMs = afterMs - beforeMs;
  if (Math.abs(byMs) <= HIDDEN_MS) return true;
  // Either clock may have been set: the stream’s one way, or the reference’s the other way.
  if (byMs < 0) {
    const moves = pauses.map(({ moveMs }) => moveMs);
    return leapsOver(-byMs, moves, between) || shutters.some((s, i) => i > 0 && isTwice(itemAt(shutters, i - 1), s));
  }
  const begins = shutters.map(({ beginMs }) => beginMs);
  return leapsOver(byMs, begins, interval(between.startMs + beforeMs, between.endMs + afterMs));
}

/** Whether nothing is written for so long somewhere in a span. */
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

/** Whether one camera seems to expose twice at once. */
function isTwice(a: { readonly endMs: number }, b: { readonly beginMs: number }): boolean {
  return a.endMs - b.beginMs > ROUNDING_MS;
}
