/** How far the field moved without guiding: the first errors after the interval relative to the last before it. */
import {
  GUIDING_OFF_KINDS,
  median,
  partitionPoint,
  robustSpread,
  type Activity,
  type GuidingSeries,
  type InterruptionDrift,
} from '../model/index.js';

/** Number of samples before the interval whose median is the star's position. */
const BEFORE = 7;
/** The first sample after the interval counts if it comes within this, ms: later, guiding has returned the star. */
const SOON_MS = 30_000;
/** Older samples do not determine the star's position, ms. */
const RECENT_MS = 120_000;

/** Noise of one axis below which nineteen of twenty lengths of two axes stay: √(−2·ln 0.05). */
const RAYLEIGH_95 = 2.448;
/** Samples from which the noise is taken. */
const NOISE_SAMPLES = 30;

/** Noise of a difference of one error and the median before it, one axis, arcseconds: from the errors before. */
function noiseBefore({ raArcsec, decArcsec }: GuidingSeries, before: number): number {
  const of = (column: Float64Array): number =>
    robustSpread([...column.subarray(Math.max(0, before - NOISE_SAMPLES), before)]);
  // One error's own noise, and the median's of BEFORE others (1.2533/√n).
  return Math.sqrt((of(raArcsec) ** 2 + of(decArcsec) ** 2) / 2) * Math.sqrt(1 + 1.2533 ** 2 / BEFORE);
}

/** Measures the drift of every interval without guiding that has samples on both sides. */
export function interruptionDrifts(series: GuidingSeries, activities: readonly Activity[]): InterruptionDrift[] {
  return activities
    .filter((a) => GUIDING_OFF_KINDS.includes(a.kind))
    .flatMap((activity): InterruptionDrift[] => {
      const after = partitionPoint(series.atMs, (t) => t >= activity.span.endMs);
      const before = partitionPoint(series.atMs, (t) => t >= activity.span.startMs);
      if (after >= series.atMs.length || before < BEFORE) return [];
      if (series.atMs[after]! - activity.span.endMs > SOON_MS) return [];
      if (activity.span.startMs - series.atMs[before - 1]! > RECENT_MS) return [];
      const raArcsec = series.raArcsec[after]! - median([...series.raArcsec.subarray(before - BEFORE, before)]);
      const decArcsec = series.decArcsec[after]! - median([...series.decArcsec.subarray(before - BEFORE, before)]);
      const driftArcsec = Math.hypot(raArcsec, decArcsec);
      if (!Number.isFinite(driftArcsec)) return [];
      const isWithinNoise = driftArcsec <= RAYLEIGH_95 * noiseBefore(series, before);
      const { span, kind, causedBy } = activity;
      return [{ span, kind, causedBy, raArcsec, decArcsec, driftArcsec, isWithinNoise }];
    });
}
