/** Star flux of frames against the best of their group: the same train, target and filter. */
import { mean, median } from '../model/statistics.js';
import { type FluxRatio, fluxRatio } from './match-stars.js';
import type { FluxFrame } from './types.js';

/** Frames needed for a best third. */
const FRAMES_MIN = 3;

/**
 * Flux relative to the mean of the group's best third, frame by frame: 1 is as good, 0.3 lets a third of the light
 * through. `null` where too few stars are common to say. Airmass is not taken out.
 *
 * Every frame is compared with one pivot through matched stars (median ratio); the ratios are then scaled to the best
 * third. The pivot is the frame with the greatest flux in its bright stars, so that faint frames find theirs in it.
 */
export function relativeFlux(frames: readonly FluxFrame[]): (FluxRatio | null)[] {
  const pivot = pivotOf(frames);
  if (pivot === undefined) return frames.map(() => null);
  const ratios = frames.map((frame) => (frame === pivot ? { ratio: 1, uncertainty: 0 } : fluxRatio(frame, pivot)));
  const known = ratios.flatMap((one) => (one === null ? [] : [one.ratio])).sort((a, b) => b - a);
  if (known.length < FRAMES_MIN) return frames.map(() => null);
  const reference = mean(known.slice(0, Math.max(1, Math.round(known.length / 3))));
  return ratios.map((one) =>
    one === null
      ? null
      : { ratio: one.ratio / reference, uncertainty: one.uncertainty === null ? null : one.uncertainty / reference },
  );
}

/** Exposures of unequal length cannot be told apart here: groups are of one exposure time. */
function pivotOf(frames: readonly FluxFrame[]): FluxFrame | undefined {
  let best: { frame: FluxFrame; flux: number } | undefined;
  for (const frame of frames) {
    const fluxes = frame.list.stars.slice(0, 100).map(({ flux }) => flux);
    if (fluxes.length < 10) continue;
    const flux = median(fluxes) * Math.sqrt(frame.list.stars.length);
    if (best === undefined || flux > best.flux) best = { frame, flux };
  }
  return best?.frame;
}
