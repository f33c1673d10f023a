import type { ActivityKind } from '../vocabulary/index.js';
import type { Interval } from './interval.js';
import type { Source } from './source.js';

/**
 * Guiding errors over time, as parallel columns: sample `i` is `atMs[i]`, `raArcsec[i]`, `decArcsec[i]`. Sorted by
 * time.
 */
export interface GuidingSeries {
  /** UTC milliseconds since the epoch. */
  readonly atMs: Float64Array;
  /** Error along right ascension on the sky, arcseconds. */
  readonly raArcsec: Float64Array;
  /** Error along declination, arcseconds. */
  readonly decArcsec: Float64Array;
  /** Guide star signal-to-noise ratio; NaN if the log has none. */
  readonly snr: Float64Array;
  /** Range of sample indices. */
  readonly sources: readonly Source[];
}

/** Guiding over one span: root mean square about zero error, and the largest excursion. Arcseconds. */
export interface GuidingSummary {
  /** About the mean: what widens stars, which a constant offset leaves round. */
  readonly jitterRmsArcsec?: number;
  /** Length of the mean error: the star's constant offset. */
  readonly offsetArcsec?: number;
  readonly samples: number;
  readonly raRmsArcsec: number;
  readonly decRmsArcsec: number;
  readonly totalRmsArcsec: number;
  readonly peakArcsec: number;
}

/** How far the field moved while guiding was off: the first errors afterwards compared with the last before. */
export interface InterruptionDrift {
  readonly span: Interval;
  /** The kind of interruption: `guiding-rest`, `star-gap`, … */
  readonly kind: ActivityKind;
  readonly causedBy?: string;
  readonly raArcsec: number;
  readonly decArcsec: number;
  /** Length of the move on the sky, arcseconds. */
  readonly driftArcsec: number;
  /** Within the guiding's own noise: no movement was detected. */
  readonly isWithinNoise?: boolean;
}

/** What trailed a frame's stars while its shutter was open, beyond the guiding's own jitter. */
export interface Smear {
  /** Steady drift over the exposure from a straight line through the errors; 0 if not significant. Arcseconds. */
  readonly steadyArcsec: number;
  /** Largest drift of an interruption within the exposure, arcseconds; 0 when there was none. */
  readonly interruptionArcsec: number;
  /** Variance added along the track by both, arcseconds². */
  readonly addedVarianceArcsec2: number;
  /**
   * Length of the uniform trail with that variance, √12 σ; arcseconds, and pixels of the train if its scale is known.
   */
  readonly trailArcsec: number;
  readonly trailPixels?: number;
  /** 1 − b/a of a star of the frame's own size, if the header gives a star size and the scale is known. */
  readonly elongation?: number;
}

/** Guiding per target and train during its exposures. */
export interface GuidingByTarget extends GuidingSummary {
  readonly target: string;
  readonly train: string;
  /** Total RMS in pixels of the train, if its scale is known. */
  readonly totalRmsPixels?: number;
}
