import type { Rules } from '../../vocabulary/index.js';
import type { FrameStars } from '../stars.js';
import type { Displacement } from './evidence/displacement.js';

/** Positions of the target and the Sun at mid-exposure, and their limits; degrees. */
export interface SkyFacts {
  readonly altitudeDeg: number;
  readonly limitDeg: number;
  readonly sunAltitudeDeg: number;
  readonly sunLimitDeg: number;
}

/** Usual values: medians of the same train, target and filter on this night, or of the train if these are too few. */
export interface UsualStars {
  /** Of the same train, target and filter, or of the whole train. */
  readonly of: 'group' | 'train';
  /** Number of frames behind it. */
  readonly frames: number;
  /** Pixels. */
  readonly fwhm: number | null;
  /** a/b. */
  readonly elongation: number | null;
  /** Stars of the best third of the same train, target, filter and exposure; `null` if these are too few. */
  readonly count: number | null;
  /** Level and noise of the sky in these, ADU. */
  readonly sky: { readonly background: number; readonly noise: number } | null;
}

/**
 * One exposure as the rules see it, real or replayed: no name, no log, only the decisive facts. Unknown values are
 * `null`, and no cause can be based on them.
 */
export interface ExposureFacts {
  readonly lengthMs: number;
  readonly askedMs: number | null;
  readonly aborted: boolean;
  /** Its file is truncated. */
  readonly isCutOff: boolean;
  /** Mount in motion or settling, summed over the exposure. */
  readonly motionMs: number;
  /** The minimum of that under any possible offset of the train's clock from the mount's. */
  readonly sureMotionMs: number;
  /** Exposure outside its longest interval without such motion: possibly spent at another position. */
  readonly awayMs: number;
  /** Guiding off, summed over the exposure; `null` when no log mentions guiding. */
  readonly unguidedMs: number | null;
  /** The minimum of that. */
  readonly sureUnguidedMs: number | null;
  /** Guiding RMS over the exposure, and the train's pixel scale. */
  readonly guidingRmsArcsec: number | null;
  readonly pixelScaleArcsec: number | null;
  readonly sky: SkyFacts | null;
  /** Stars measured in the pixels; `null` if not measured. A replayed exposure has those of the night's own frame. */
  readonly stars: FrameStars | null;
  readonly usual: UsualStars | null;
  /** The elongation from movement inside the exposure, from the guiding samples. */
  readonly displacement: Displacement | null;
}

/**
 * How long guiding may be off before the frame is lost, ms: the grace, or a fraction of the exposure if that is more.
 */
export function guidingOffLimitMs(lengthMs: number, rules: Rules): number {
  return Math.max(rules.guidingOffGraceSeconds * 1000, rules.guidingOffShare * lengthMs);
}

/** Guiding RMS above which a frame is doubtful, arcseconds. */
export function roughGuidingArcsec(pixelScaleArcsec: number, rules: Rules): number {
  return rules.roughGuidingPixels * pixelScaleArcsec;
}
