import type { Rules } from '../../vocabulary/index.js';
import type { FrameStars } from '../stars.js';
import type { Displacement } from './evidence/displacement.js';

/** Where the target and the Sun stood at mid-exposure, and their limits; degrees. */
export interface SkyFacts {
  readonly altitudeDeg: number;
  readonly limitDeg: number;
  readonly sunAltitudeDeg: number;
  readonly sunLimitDeg: number;
}

/**
 * What is usual: medians of the same train, target and filter on this night, or of the train where these are too few.
 */
export interface UsualStars {
  /** Of the same train, target and filter, or of the whole train. */
  readonly of: 'group' | 'train';
  /** Frames behind it. */
  readonly frames: number;
  /** Pixels. */
  readonly fwhm: number | null;
  /** a/b. */
  readonly elongation: number | null;
  /** Stars of the best third of the same train, target, filter and exposure; `null` where these are too few. */
  readonly count: number | null;
  /** Level and noise of the sky in these, ADU. */
  readonly sky: { readonly background: number; readonly noise: number } | null;
}

/**
 * One exposure as the rules see it, taken or replayed: no name, no log, only what decides. What is not known is `null`,
 * and no cause can rest on it.
 */
export interface ExposureFacts {
  readonly lengthMs: number;
  readonly askedMs: number | null;
  readonly aborted: boolean;
  /** Its file lacks pixels. */
  readonly isCutOff: boolean;
  /** Mount in motion or settling, summed over the exposure. */
  readonly motionMs: number;
  /** The least of that which is sure, whatever the train's clock is off the mount's within what is known of it. */
  readonly sureMotionMs: number;
  /** Exposure beside its longest stretch without such motion: what may have been spent at another place. */
  readonly awayMs: number;
  /** Guiding off, summed over the exposure; `null` when no log speaks of guiding. */
  readonly unguidedMs: number | null;
  /** The least of that which is sure. */
  readonly sureUnguidedMs: number | null;
  /** Guiding RMS over the exposure, and the train's pixel scale. */
  readonly guidingRmsArcsec: number | null;
  readonly pixelScaleArcsec: number | null;
  readonly sky: SkyFacts | null;
  /**
   * Stars measured in the pixels; `null` where they were not. A replayed exposure has those of the night's own frame.
   */
  readonly stars: FrameStars | null;
  readonly usual: UsualStars | null;
  /** What the movement inside the exposure draws, by the guiding samples. */
  readonly displacement: Displacement | null;
}

/**
 * What guiding may be off for before the frame is lost, ms: the grace, or a share of the exposure where that is more.
 */
export function guidingOffLimitMs(lengthMs: number, rules: Rules): number {
  return Math.max(rules.guidingOffGraceSeconds * 1000, rules.guidingOffShare * lengthMs);
}

/** Guiding RMS above which a frame is doubtful, arcseconds. */
export function roughGuidingArcsec(pixelScaleArcsec: number, rules: Rules): number {
  return rules.roughGuidingPixels * pixelScaleArcsec;
}
