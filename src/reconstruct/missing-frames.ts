/** Rests that are as long as frames without a file: removed before the report, or never read out. */
import { durationMs, type Frame, type Interval } from '../model/index.js';

/** Shorter exposures are no longer than many a dither, ms. Common practice, no source. */
const SHORTEST_EXPOSURE_MS = 30_000;
/** Frames of one sequence follow one another within this fraction of an exposure, with a minimum in ms. */
const TOLERANCE_MS = 2000;
const TOLERANCE_SHARE = 0.02;

/**
 * Whether a rest is a multiple of whole frames: of the previous exposure, each with its readout.
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
