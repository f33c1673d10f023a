import type { Source } from './source.js';

/** Guiding errors over time, as parallel columns: sample `i` is `atMs[i]`, `raArcsec[i]`, `decArcsec[i]`. Sorted by time. */
export interface GuidingSeries {
  /** UTC milliseconds since the epoch. */
  readonly atMs: Float64Array;
  /** Error along right ascension on the sky, arcseconds. */
  readonly raArcsec: Float64Array;
  /** Error along declination, arcseconds. */
  readonly decArcsec: Float64Array;
  /** Guide star signal-to-noise ratio; NaN where the log has none. */
  readonly snr: Float64Array;
  /** Where the samples stand. */
  readonly sources: readonly Source[];
}

/** Guiding over one span: root mean square about zero error, and the largest excursion. Arcseconds. */
export interface GuidingSummary {
  readonly samples: number;
  readonly raRmsArcsec: number;
  readonly decRmsArcsec: number;
  readonly totalRmsArcsec: number;
  readonly peakArcsec: number;
}
