/** Summary of a frame's stars: medians with their errors, in sensor pixels. */
import { numbersOf } from '../../model/collections.js';
import { median, robustSpread } from '../../model/statistics.js';
import { PIXEL_VARIANCE } from './aperture.js';
import { FWHM_PER_SIGMA } from './band-stars.js';
import type { FoundStar } from './found-star.js';
import { axesOf } from './moments.js';

/** Stars below this signal-to-noise ratio have unreliable shapes. */
const SNR_MIN = 30;
/** With fewer stars than this the limit is lowered. */
const STARS_MIN = 10;
const SNR_LOWERED = 10;
/** Below this fraction of the usual width it is not a star, but a particle track. */
const SHARP_SHARE = 0.5;

export interface Scale {
  readonly x: number;
  readonly y: number;
}

/** A star's width and shape, in sensor pixels. */
export interface StarShape {
  readonly fwhm: number;
  readonly halfFlux: number | undefined;
  readonly elongation: number;
  readonly direction: number;
  /** ln(a/b), and its uncertainty from the noise. */
  readonly stretch: number;
  readonly stretchUncertainty: number;
  /** See `FoundStar`. */
  readonly flatness: number;
}

export interface ShapeSummary {
  readonly fwhm: number | null;
  readonly fwhmUncertainty: number | null;
  readonly halfFlux: number | null;
  readonly elongation: number | null;
  readonly elongationUncertainty: number | null;
  readonly direction: number | null;
  readonly agreement: number | null;
  readonly halfFluxUncertainty: number | null;
  readonly directionUncertainty: number | null;
  /** Stars that the medians rest on. */
  readonly measured: number;
}

const NOTHING: ShapeSummary = {
  fwhm: null,
  fwhmUncertainty: null,
  halfFlux: null,
  elongation: null,
  elongationUncertainty: null,
  direction: null,
  agreement: null,
  halfFluxUncertainty: null,
  directionUncertainty: null,
  measured: 0,
};

/** Stars suitable for medians: isolated, not saturated, with a fitted profile, bright enough. */
export function fitForShape(stars: readonly FoundStar[], isSaturated: (star: FoundStar) => boolean): FoundStar[] {
  const usable = stars.flatMap((star) =>
    star.fwhm === undefined || star.crowded || isSaturated(star) ? [] : [{ star, fwhm: star.fwhm }],
  );
  const above = (snr: number) => usable.filter(({ star }) => star.flux > snr * star.fluxUncertainty);
  const bright = above(SNR_MIN);
  const chosen = bright.length >= STARS_MIN ? bright : above(SNR_LOWERED);
  const usual = median(chosen.map(({ fwhm }) => fwhm));
  return chosen.flatMap(({ star, fwhm }) => (fwhm > SHARP_SHARE * usual ? [star] : []));
}

/**
 * A star's shape in sensor pixels. The pixel's own width, 1/12 px² per axis, is subtracted from a and b.
 *
 * @param electronsPerAdu for the photons' part of the noise
 */
export function shapeOf(star: FoundStar, scale: Scale, electronsPerAdu: number | undefined): StarShape | undefined {
  if (star.fwhm === undefined) return undefined;
  const across = Math.sqrt(scale.x * scale.y);
  const { moments } = star;
  const fwhm = withoutSmallPixel(star.fwhm, star.ownFwhm) * across;
  const halfFlux = star.halfFlux === undefined ? undefined : star.halfFlux * across;
  if (moments === undefined)
    return { fwhm, halfFlux, elongation: 1, direction: 0, stretch: 0, stretchUncertainty: Infinity, flatness: 0 };
  const { long, short, direction } = axesOf(
    (moments.xx - PIXEL_VARIANCE) * scale.x ** 2,
    moments.xy * scale.x * scale.y,
    (moments.yy - PIXEL_VARIANCE) * scale.y ** 2,
  );
  const elongation = Math.sqrt(long / Math.max(short, 0.02 * long));
  return {
    fwhm,
    halfFlux,
    elongation,
    direction,
    stretch: Math.log(elongation),
    stretchUncertainty: stretchUncertainty(star, electronsPerAdu),
    flatness: star.flatness ?? 0,
  };
}

/** Between these recorded widths, px, the pixel's contribution is gradually subtracted. */
const PIXEL_OUT = 1.5;
const PIXEL_IN = 1.8;

/**
 * The FWHM is that of the star as recorded, including the pixel, down to 1.8 px. Below 1.5 px it would say more about
 * the pixel than about the star, so the pixel's variance is subtracted; gradually in between, to avoid a step.
 */
export function withoutSmallPixel(fwhm: number, ownFwhm: number | undefined): number {
  const share = Math.min(1, Math.max(0, (PIXEL_IN - fwhm) / (PIXEL_IN - PIXEL_OUT)));
  const own = ownFwhm === undefined ? Math.max(fwhm ** 2 - FWHM_PER_SIGMA ** 2 * PIXEL_VARIANCE, 0.04) : ownFwhm ** 2;
  return Math.sqrt(fwhm ** 2 + share * (own - fwhm ** 2));
}

/**
 * Standard deviation of each component of ln(a/b) by noise (D): 2/ν with ν = F/(σ·√(4π)·s), the sky's part as in
 * Bernstein & Jarvis 2002, and the photons' part for a Gaussian star.
 */
function stretchUncertainty({ moments, flux, noise }: FoundStar, electronsPerAdu: number | undefined): number {
  if (moments === undefined || !(flux > 0)) return Infinity;
  const variance = Math.sqrt(Math.max(moments.xx * moments.yy - moments.xy ** 2, 0.01));
  const peak = flux / (2 * Math.PI * variance);
  const photons = electronsPerAdu === undefined ? 0 : (0.296 * peak) / electronsPerAdu;
  return (Math.sqrt(16 * Math.PI * variance) * Math.sqrt(noise ** 2 + photons)) / flux;
}

/** Medians over the selected stars. */
export function summarise(shapes: readonly StarShape[]): ShapeSummary {
  const count = shapes.length;
  if (count === 0) return NOTHING;
  const widths = shapes.map(({ fwhm }) => fwhm);
  const radii = shapes.flatMap(({ halfFlux }) => (halfFlux === undefined ? [] : [halfFlux]));
  const shaped = shapes.filter(({ stretchUncertainty: noise }) => Number.isFinite(noise));
  const stretch = shaped.length === 0 ? null : typicalStretch(shaped);
  const stretches = shaped.map((shape) => shape.stretch);
  const elongation =
    stretch === null ? null : trailed(Math.exp(stretch), median(shaped.map(({ flatness }) => flatness)));
  return {
    fwhm: median(widths),
    fwhmUncertainty: count < 2 ? null : medianError(widths),
    halfFlux: radii.length === 0 ? null : median(radii),
    halfFluxUncertainty: radii.length < 2 ? null : medianError(radii),
    elongation,
    elongationUncertainty: elongation === null || shaped.length < 2 ? null : elongation * medianError(stretches),
    ...agreementOf(shaped),
    measured: count,
  };
}

/** Flatness below this is noise. */
const FLATNESS_MIN = 0.02;

/**
 * Adaptive moments overestimate the length of a trail. The ratio of the variances follows from the flatness (C: trails
 * of 0 to 20 σ on a Gaussian, to 0.4 %), so that a trail of length L on a Gaussian comes out at √(1 + L²/12σ²).
 */
function trailed(elongation: number, flatness: number): number {
  if (flatness < FLATNESS_MIN) return elongation;
  return Math.max(1, elongation * Math.sqrt(1 - (0.7718 * flatness) / (1 + 1.2537 * flatness)));
}

/** Halvings of the greatest stretch: to a millionth of it. */
const ROUNDS = 20;

/** Standard error of a median of nearly normal values. */
export function medianError(values: readonly number[]): number {
  return (1.253 * robustSpread(values)) / Math.sqrt(values.length);
}

/**
 * The elongation ln(a/b) which, perturbed by noise in any direction, has equally many measured values above as below
 * it. The measured length of a noisy vector of length s has the median² s² + σ²·(1 + 0.386·exp(−s²/2σ²)) (Rice
 * distribution, approximated; exact for s = 0 and for s ≫ σ).
 */
function typicalStretch(shapes: readonly StarShape[]): number {
  const squares = numbersOf(shapes, ({ stretch }) => stretch * stretch);
  const variances = numbersOf(shapes, ({ stretchUncertainty }) => stretchUncertainty ** 2);
  let low = 0;
  let high = Math.sqrt(squares.reduce((a, b) => Math.max(a, b), 0));
  for (let round = 0; round < ROUNDS; round++) {
    const trial = ((low + high) / 2) ** 2;
    let above = 0;
    for (let i = 0; i < squares.length; i++) {
      const variance = variances[i] as number;
      const excess = (squares[i] as number) - trial - variance;
      // The rest of the spread is between 0 and 0.386 of the variance.
      if (excess > 0.386 * variance || (excess > 0 && excess > 0.386 * variance * Math.exp(-trial / (2 * variance))))
        above++;
    }
    if (above * 2 > shapes.length) low = Math.sqrt(trial);
    else high = Math.sqrt(trial);
  }
  return (low + high) / 2;
}

interface Agreement {
  readonly direction: number | null;
  readonly directionUncertainty: number | null;
  readonly agreement: number | null;
}

/**
 * Direction of the mean of the doubled directions, weighted by elongation − 1, and how well they agree (0 to 1). The
 * standard error is that of a weighted mean of angles: the root of the summed squares across it, over the sum along it.
 */
function agreementOf(shapes: readonly StarShape[]): Agreement {
  let weights = 0;
  let cosines = 0;
  let sines = 0;
  for (const { elongation, direction } of shapes) {
    // A few broken shapes must not outweigh the rest.
    const weight = Math.min(elongation, 4) - 1;
    const doubled = (direction * Math.PI) / 90;
    weights += weight;
    cosines += weight * Math.cos(doubled);
    sines += weight * Math.sin(doubled);
  }
  if (!(weights > 0)) return { direction: null, directionUncertainty: null, agreement: null };
  const mean = Math.atan2(sines, cosines);
  const along = Math.hypot(cosines, sines);
  let across = 0;
  for (const { elongation, direction } of shapes)
    across += ((Math.min(elongation, 4) - 1) * Math.sin((direction * Math.PI) / 90 - mean)) ** 2;
  const direction = (mean * 90) / Math.PI;
  return {
    direction: direction < 0 ? direction + 180 : direction,
    directionUncertainty:
      shapes.length < 2 || along === 0 ? null : Math.min(90, (Math.sqrt(across) / along) * (90 / Math.PI)),
    agreement: along / weights,
  };
}
