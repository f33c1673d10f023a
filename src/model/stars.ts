import type { FrameShift } from './pair.js';
import type { PairPointing, TrainPointing } from './pointing.js';
import type { Warning } from './warning.js';

/**
 * Stars measured in the pixels. Coordinates along NAXIS1 (x) and NAXIS2 (y) as stored, the centre of the first pixel at
 * (1, 1) (FITS Standard 4.0); directions in degrees, 0–180, from +x towards +y; sizes in sensor pixels.
 */

/** One star as measured in one frame. */
export interface Star {
  readonly x: number;
  readonly y: number;
  /** Sum above the background in the aperture, ADU. */
  readonly flux: number;
  /** Flux over its own uncertainty. */
  readonly snr: number;
  /** Full width at half maximum, px. */
  readonly fwhm: number;
  /** Half-flux radius, px. */
  readonly halfFlux: number;
  /** a/b, 1 for a round star. */
  readonly elongation: number;
  /** Of the long axis. */
  readonly direction: number;
  readonly saturated: boolean;
}

/** How much of the frame was read. */
export type StarReading = 'full' | 'strips';

/** Standard errors of a frame's figures, each in its figure's unit; `null` where too little says. */
export interface StarUncertainties {
  readonly halfFlux: number | null;
  /** Degrees; beyond 45 the direction says nothing. */
  readonly direction: number | null;
  /** Of the medians over the mesh; a gradient widens them. */
  readonly background: number | null;
  readonly noise: number | null;
  readonly flux: number | null;
}

/** Level and noise in electrons per second and pixel. */
export interface ElectronRates {
  /** The header's pedestal taken off where it states one; else only differences mean something. */
  readonly background: number;
  readonly noise: number;
}

/** What the stars of one frame say, as medians over unsaturated stars. */
export interface FrameStars {
  readonly by: StarReading;
  /** Stars found, in what was read. */
  readonly count: number;
  /** Full width at half maximum, px, and its standard error; `null` with no star to measure. */
  readonly fwhm: number | null;
  readonly fwhmUncertainty: number | null;
  /** Half-flux radius, px. */
  readonly halfFlux: number | null;
  /** a/b. */
  readonly elongation: number | null;
  /** Standard error of the elongation. */
  readonly elongationUncertainty?: number | null;
  readonly direction: number | null;
  /** Absent in records of before they were taken. */
  readonly uncertainties?: StarUncertainties;
  /** Resultant length of the doubled directions, 0 (any way) to 1 (all one way). */
  readonly agreement: number | null;
  /** Median level and noise per pixel, ADU. */
  readonly background: number;
  readonly noise: number;
  /** Where electrons per ADU are known. */
  readonly electronsPerSecond?: ElectronRates;
  /** Relative to the best third of the same train, target and filter: 1 is as good; `null` when not comparable. */
  readonly flux: number | null;
  /** The filter whose light the frame shows, where it is not the one that it names. */
  readonly takenThrough?: string;
  /** Share of the read pixels that are saturated. */
  readonly saturated: number;
  readonly shift: FrameShift | null;
  /** FWHM, px, in 3 × 3 zones, row by row from the first pixel; full readings only. */
  readonly zones?: readonly (number | null)[];
  /** Standard errors of these; absent in records of before they were taken. */
  readonly zoneUncertainties?: readonly (number | null)[];
}

/** What the pixels of a night say. */
export interface NightStars {
  /** By frame id; absent where a frame could not be measured. */
  readonly frames: Readonly<Record<string, FrameStars>>;
  /** Train by train on each target, where frames could be laid on one another. */
  readonly pointings: readonly TrainPointing[];
  readonly pairs: readonly PairPointing[];
  /** What could not be measured, and why. */
  readonly warnings: readonly Warning[];
}
