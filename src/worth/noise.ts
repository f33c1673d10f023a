/**
 * Signal and noise of exposures. From the signal-to-noise ratio of a camera, S/√(S + n(b + d)t + nR²) (W. J. Merline &
 * S. B. Howell 1995, Experimental Astronomy 6, 163), for a target much fainter than its sky. Electrons, seconds, one
 * pixel.
 */

/** Signal and noise of one exposure. */
export interface Exposure {
  /** Sky, electrons per second and pixel. */
  readonly sky: number;
  /** Dark current, electrons per second and pixel. */
  readonly dark: number;
  /** Read noise, electrons. */
  readonly readNoise: number;
  readonly seconds: number;
}

/** Noise variance per second of exposure: b + d + R²/t. */
export function varianceRate({ sky, dark, readNoise, seconds }: Exposure): number {
  return sky + dark + readNoise ** 2 / seconds;
}

/**
 * Effective ÷ clock time of a frame relative to a reference frame: g = τ²·(b0 + d + R²/t0)/(b + d + R²/t).
 *
 * Exposures times their shares add up to the worth of a stack whose frames are weighted by τ/σ². If the sky is the only
 * noise, it becomes τ²·b0/b: the effective time of surveys (E. Neilsen et al. 2016, FERMILAB-TM-2610; E. Schlafly et
 * al. 2023) without their factor for seeing, which matters for stars and not for extended nebulae.
 *
 * @param transparency τ, light of the target that arrives, relative to the reference
 */
export function effectiveShare(transparency: number, frame: Exposure, reference: Exposure): number {
  return (transparency ** 2 * varianceRate(reference)) / varianceRate(frame);
}

/** The share if the sky is the only noise: τ²·b0/b. @param skyRatio b/b0 */
export function skyLimitedShare(transparency: number, skyRatio: number): number {
  return transparency ** 2 / skyRatio;
}

/**
 * Noise added by reading out to that of sky and dark current, as a fraction: √(1 + R²/(Bt)) − 1.
 *
 * @param background B, sky and dark current, electrons per second and pixel
 */
export function extraNoise(background: number, readNoise: number, seconds: number): number {
  return Math.sqrt(1 + readNoise ** 2 / (background * seconds)) - 1;
}

/** Shortest exposure, in seconds, whose extra noise is at most a fraction p: R²/(B·((1 + p)² − 1)). */
export function secondsForExtraNoise(background: number, readNoise: number, extra: number): number {
  return readNoise ** 2 / (background * ((1 + extra) ** 2 - 1));
}
