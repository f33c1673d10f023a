/** Rests that are as long as frames which no file holds any more: sorted out before the report, or never read. */
import { durationMs, type Frame, type Interval } from '../model/index.js';

/** Shorter exposures are as long as many a dither, ms. Common practice, no source. */
const SHORTEST_EXPOSURE_MS = 30_000;
/** Frames of one sequence follow one another within this share of an exposure, ms at least. */
const TOLERANCE_MS = 2000;
const TOLERANCE_SHARE = 0.02;

/**
 * Whether a rest is that of whole frames: of the exposure before it, each with its readout.
 *
 * @param span the rest, which begins after the readout
 */
export function isOfMissingFrames({ span, before }: { readonly span: Interval; readonly before: Frame }): boolean {
  const exposureMs = durationMs(before.exposure);
  if (exposureMs < SHORTEST_EXPOSURE_MS) return false;
  const cycleMs = exposureMs + span.startMs - before.exposure.endMs;
  const frames = Math.round(durationMs(span) / cycleMs);
  const offMs = Math.abs(durationMs(span) - frames * cycleMs);
  return frames >= 1 && offMs <= frames * Math.max(TOLERANCE_MS, TOLERANCE_SHARE * exposureMs);
}
