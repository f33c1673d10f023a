/**
 * The effect of a drift on a star, by second moments: variances add under convolution, so the variance that a motion
 * adds along its track gives the trail's length and the star's elongation.
 *
 * - Uniform drift of length L over the whole exposure: L²/12 (variance of a uniform distribution).
 * - Drift from a to b during a fraction f of the exposure, the star at its position for the rest: f·(a² + ab + b²)/3 −
 *   f²·(a + b)²/4 (E[x²] = f·(a² + ab + b²)/3, E[x] = f·(a + b)/2). With a = 0 the pause begins within the exposure:
 *   f·d²/3 − f²·d²/4. With f = 1 the shutter saw only the drift: (b − a)²/12.
 * - Elongation e = 1 − b/a = 1 − 1/√(1 + Δ/σ²) of a round star of variance σ² with Δ added along one axis.
 *
 * Derived from the definition of the second central moment; no published table.
 */
import {
  durationMs,
  fwhmArcsec,
  overlapMs,
  partitionPoint,
  type Frame,
  type GuidingSeries,
  type InterruptionDrift,
  type Smear,
  type Train,
} from '../model/index.js';

/** Fewer samples do not determine a straight line. */
const MIN_SAMPLES = 8;
/** A steady drift counts when it exceeds this many of its own standard errors. */
const SIGNIFICANT = 3;
/** FWHM of a Gaussian is 2√(2 ln 2) σ = 2.3548 σ. */
const SIGMA_PER_FWHM = 1 / (2 * Math.sqrt(2 * Math.LN2));

/** Variance added along the track by a uniform drift over the whole exposure. */
export function steadyVariance(length: number): number {
  return length ** 2 / 12;
}

/**
 * Variance added by an even drift from `from` to `to` during the fraction `f` of the exposure, with the star at 0 for
 * the rest.
 */
export function partialDriftVariance(from: number, to: number, f: number): number {
  return (f * (from ** 2 + from * to + to ** 2)) / 3 - (f ** 2 * (from + to) ** 2) / 4;
}

/** Variance added when the star is `distance` away for the fraction `f` of the exposure. */
export function jumpVariance(distance: number, f: number): number {
  return f * (1 - f) * distance ** 2;
}

/** 1 − b/a of a round star of variance `sigma2` with `added` along one axis. */
export function elongation(added: number, sigma2: number): number {
  return 1 - 1 / Math.sqrt(1 + added / sigma2);
}

/** Estimates a frame's smear; `null` without enough samples. */
export function smearOf(
  frame: Frame,
  series: GuidingSeries,
  drifts: readonly InterruptionDrift[],
  train: Train,
): Smear | null {
  const steadyArcsec = steadyDrift(frame, series);
  if (steadyArcsec === null) return null;
  const within = drifts
    .filter((d) => !d.isWithinNoise)
    .map((d) => insideFrame(d, frame))
    .filter(({ f }) => f > 0);
  const addedVarianceArcsec2 =
    steadyVariance(steadyArcsec) +
    within.reduce((sum, { fromArcsec, toArcsec, f }) => sum + partialDriftVariance(fromArcsec, toArcsec, f), 0);
  const trailArcsec = Math.sqrt(12 * addedVarianceArcsec2);
  const scale = train.pixelScaleArcsec;
  const fwhm = fwhmArcsec(frame.header, scale);
  const sigmaArcsec = fwhm === undefined ? undefined : fwhm * SIGMA_PER_FWHM;
  return {
    steadyArcsec,
    interruptionArcsec: within.reduce((largest, part) => Math.max(largest, excursion(part)), 0),
    addedVarianceArcsec2,
    trailArcsec,
    trailPixels: scale === undefined ? undefined : trailArcsec / scale,
    elongation:
      sigmaArcsec === undefined || sigmaArcsec === 0 ? undefined : elongation(addedVarianceArcsec2, sigmaArcsec ** 2),
  };
}

/** The part of a drift that fell into the open shutter. */
export interface DriftInside {
  /** Distance of the star from its position at the part's begin and end, arcseconds. */
  readonly fromArcsec: number;
  readonly toArcsec: number;
  /** The fraction of the exposure that it took. */
  readonly f: number;
}

/**
 * The part of a drift that fell into the open shutter, assuming a uniform drift after which guiding returned the star:
 * a shutter that closes ten seconds into the pause sees a short displacement; one that opens ten seconds before its end
 * begins far away, and sees the star return.
 */
export function insideFrame(
  { span, driftArcsec }: Pick<InterruptionDrift, 'span' | 'driftArcsec'>,
  { exposure }: Pick<Frame, 'exposure'>,
): DriftInside {
  const fromMs = Math.max(span.startMs, exposure.startMs);
  const toMs = Math.max(fromMs, Math.min(span.endMs, exposure.endMs));
  const at = (ms: number): number => (driftArcsec * (ms - span.startMs)) / Math.max(1, durationMs(span));
  return {
    fromArcsec: at(fromMs),
    toArcsec: at(toMs),
    f: overlapMs(span, exposure) / Math.max(1, durationMs(exposure)),
  };
}

/** The largest distance between two positions of the star while the shutter was open. */
function excursion({ fromArcsec, toArcsec, f }: DriftInside): number {
  return f >= 1 ? toArcsec - fromArcsec : toArcsec;
}

/** Length of the steady drift over the exposure by least squares, 0 when its own noise explains it. */
function steadyDrift(frame: Frame, series: GuidingSeries): number | null {
  const { startMs, endMs } = frame.exposure;
  const first = partitionPoint(series.atMs, (t) => t >= startMs);
  const last = partitionPoint(series.atMs, (t) => t >= endMs);
  if (last - first < MIN_SAMPLES) return null;
  const ra = line(series.atMs, series.raArcsec, first, last);
  const dec = line(series.atMs, series.decArcsec, first, last);
  const length = Math.hypot(ra.slope, dec.slope) * (endMs - startMs);
  const error = Math.hypot(ra.slopeError, dec.slopeError) * (endMs - startMs);
  return length > SIGNIFICANT * error ? length : 0;
}

function line(x: Float64Array, y: Float64Array, first: number, last: number): { slope: number; slopeError: number } {
  const n = last - first;
  let meanX = 0;
  let meanY = 0;
  for (let i = first; i < last; i++) {
    meanX += x[i]! / n;
    meanY += y[i]! / n;
  }
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (let i = first; i < last; i++) {
    const dx = x[i]! - meanX;
    const dy = y[i]! - meanY;
    sxx += dx * dx;
    sxy += dx * dy;
    syy += dy * dy;
  }
  if (sxx === 0) return { slope: 0, slopeError: Infinity };
  const slope = sxy / sxx;
  const residual = Math.max(0, syy - slope * sxy) / Math.max(1, n - 2);
  return { slope, slopeError: Math.sqrt(residual / sxx) };
}
