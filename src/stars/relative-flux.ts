/** Star flux of frames relative to the best of their group: the same train, target and filter. */
import { mean, median } from '../model/statistics.js';
import { type FluxRatio, fluxRatio } from './match-stars.js';
import type { FluxFrame } from './types.js';

/** Minimum number of frames for a best third. */
const FRAMES_MIN = 3;
/**
 * A larger jump in light from one frame to the next is a change of units (numbers from 0 to 1, eight bits): through
 * that much cloud no star is found. Common practice, no source.
 */
const OTHER_UNITS = 50;
/**
 * Frames with stars wider than this multiple of the group's usual width cannot be the pivot: a jump draws each star
 * twice.
 */
const WIDE = 1.3;

/**
 * Flux relative to the mean of the group's best third, frame by frame: 1 is as good, 0.3 lets a third of the light
 * through. `null` with too few common stars. Not corrected for air mass.
 *
 * Every frame is compared with one pivot through matched stars (median ratio); the ratios are then scaled to the best
 * third. The pivot is the frame with the largest flux in its bright stars, so that faint frames find theirs in it.
 * Standard errors include the frame's own noise and that of the best third's mean. Frames in other units are compared
 * among themselves.
 */
export function relativeFlux(frames: readonly FluxFrame[]): (FluxRatio | null)[] {
  const pivot = pivotOf(frames);
  if (pivot === undefined) return frames.map(() => null);
  const ratios = frames.map((frame) => (frame === pivot ? PIVOT : fluxRatio(frame, pivot)));
  const known = ratios.flatMap((one) => one ?? []).sort((a, b) => b.ratio - a.ratio);
  const scaled = new Map(inLikeUnits(known).flatMap(toBest));
  return ratios.map((one) => (one === null ? null : (scaled.get(one) ?? null)));
}

const PIVOT: FluxRatio = { ratio: 1, uncertainty: null };

/** Ratios, largest first, split where one is so much smaller than the previous that it must be in other units. */
function inLikeUnits(known: readonly FluxRatio[]): FluxRatio[][] {
  const parts: FluxRatio[][] = [];
  for (const one of known) {
    const last = parts.at(-1)?.at(-1);
    if (last !== undefined && last.ratio <= OTHER_UNITS * one.ratio) parts.at(-1)!.push(one);
    else parts.push([one]);
  }
  return parts;
}

/** Each ratio, largest first, with the same scaled to the mean of the best third; empty for too few. */
function toBest(known: readonly FluxRatio[]): [FluxRatio, FluxRatio][] {
  if (known.length < FRAMES_MIN) return [];
  const best = known.slice(0, Math.max(1, Math.round(known.length / 3)));
  const reference = mean(best.map(({ ratio }) => ratio));
  const pivotVariance = varianceOfOne(known.slice(0, Math.max(best.length, FRAMES_MIN)));
  return known.map((one) => {
    const ratio = one.ratio / reference;
    const variance = one === PIVOT ? pivotVariance : ownVariance(one, pivotVariance);
    if (variance === null || pivotVariance === null) return [one, { ratio, uncertainty: null }];
    return [one, { ratio, uncertainty: ratio * Math.sqrt(variance + pivotVariance / best.length) }];
  });
}

/**
 * The relative variance of one frame among the best, including the pivot: a ratio has the noise of both its frames, and
 * the best are alike, so each has half of it (D). `null` if no ratio has an error.
 */
function varianceOfOne(best: readonly FluxRatio[]): number | null {
  const variances = best.flatMap((one) => relativeVariance(one) ?? []);
  return variances.length === 0 ? null : median(variances) / 2;
}

/** The frame's contribution in excess of the pivot's noise; at least half of the total. */
function ownVariance(one: FluxRatio, pivotVariance: number | null): number | null {
  const both = relativeVariance(one);
  return both === null || pivotVariance === null ? null : Math.max(both - pivotVariance, both / 2);
}

function relativeVariance({ ratio, uncertainty }: FluxRatio): number | null {
  return uncertainty === null ? null : (uncertainty / ratio) ** 2;
}

/** Exposures of unequal length are indistinguishable here: groups have one exposure time. */
function pivotOf(frames: readonly FluxFrame[]): FluxFrame | undefined {
  const rich = frames.flatMap((frame) => {
    const stars = frame.list.stars.slice(0, 100);
    if (stars.length < 10) return [];
    const flux = median(stars.map((star) => star.flux)) * Math.sqrt(frame.list.stars.length);
    return [{ frame, flux, width: median(stars.map(({ fwhm }) => fwhm)) }];
  });
  const usual = median(rich.map(({ width }) => width));
  const sharp = rich.filter(({ width }) => width <= WIDE * usual);
  return sharp.length === 0 ? undefined : sharp.reduce((a, b) => (b.flux > a.flux ? b : a)).frame;
}
