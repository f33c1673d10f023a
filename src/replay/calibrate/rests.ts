/** What a train does while another's refocus has paused guiding. */
import { overlapMs, type AccountedNight } from '../../model/index.js';
import type { Known } from './known.js';

/** A longer rest is not just a readout, ms. */
const LONG_REST_MS = 20_000;
/** Anything that begins within this of a pause's ends is outside it, ms. */
const EDGE_MS = 1000;

/**
 * Whether a train waited for the other's refocus to finish before it exposed again; undefined if the night does not
 * show it.
 */
export function restsInPauses(
  { course, lights, idles }: Known,
  { timeline: { activities } }: AccountedNight,
): boolean | undefined {
  const pauses = activities.filter(
    (a) => a.kind === 'guiding-rest' && a.causedBy !== undefined && a.causedBy !== course.id,
  );
  const begun = lights.filter((f) =>
    pauses.some((p) => f.exposure.startMs > p.span.startMs + EDGE_MS && f.exposure.startMs < p.span.endMs - EDGE_MS),
  );
  // A rest through the pause, unless it was for a subsequent dither.
  const rested = idles.filter(
    (i) =>
      i.focus.length === 0 &&
      i.stretch === null &&
      pauses.some(
        (p) =>
          overlapMs(p.span, i.span) > LONG_REST_MS &&
          i.span.endMs >= p.span.endMs &&
          i.cycles.every((c) => c.beginMs < p.span.startMs),
      ),
  );
  return rested.length + begun.length > 0 ? rested.length > begun.length : undefined;
}
