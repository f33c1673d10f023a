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

/** Standard errors of a frame's figures, each in its figure's unit; `null` without enough data. */
export interface StarUncertainties {
  readonly halfFlux: number | null;
  /** Degrees; beyond 45 the direction is undetermined. */
  readonly direction: number | null;
  /** Of the medians over the mesh; a gradient increases them. */
  readonly background: number | null;
  readonly noise: number | null;
  readonly flux: number | null;
}

/** Level and noise in electrons per second and pixel. */
export interface ElectronRates {
  /** With the header's pedestal subtracted if stated; else only differences are meaningful. */
  readonly background: number;
  readonly noise: number;
}

/** Two images of every star in one frame. */
export interface DoubledStars {
  /** From each star to its fainter image along the frame's axes, sensor px. */
  readonly x: number;
  readonly y: number;
  /** The fainter image's share of the light, 0 to 0.5. */
  readonly share: number;
  /** Height above all other offsets, in their spread. */
  readonly significance: number;
}

/** Star statistics of one frame, as medians over unsaturated stars. */
export interface FrameStars {
  readonly by: StarReading;
  /** Stars found, in the part read. */
  readonly count: number;
  /** Full width at half maximum, px, and its standard error; `null` without measurable stars. */
  readonly fwhm: number | null;
  readonly fwhmUncertainty: number | null;
  /** Half-flux radius, px. */
  readonly halfFlux: number | null;
  /** a/b. */
  readonly elongation: number | null;
  /** Standard error of the elongation. */
  readonly elongationUncertainty?: number | null;
  readonly direction: number | null;
  /** Absent in records from before they were measured. */
  readonly uncertainties?: StarUncertainties;
  /** Resultant length of the doubled directions, 0 (random) to 1 (aligned). */
  readonly agreement: number | null;
  /** Median level and noise per pixel, ADU. */
  readonly background: number;
  readonly noise: number;
  /** If electrons per ADU are known. */
  readonly electronsPerSecond?: ElectronRates;
  /** Relative to the best third of the same train, target and filter: 1 is as good; `null` when not comparable. */
  readonly flux: number | null;
  /** The filter whose light the frame shows, if not the one that it names. */
  readonly takenThrough?: string;
  /** Every star stands twice: the mount moved while the shutter was open. */
  readonly doubled?: DoubledStars;
  /** Fraction of saturated pixels among those read. */
  readonly saturated: number;
  readonly shift: FrameShift | null;
  /** FWHM, px, in 3 × 3 zones, row by row from the first pixel; full readings only. */
  readonly zones?: readonly (number | null)[];
  /** Standard errors of these; absent in records from before they were measured. */
  readonly zoneUncertainties?: readonly (number | null)[];
}

/** The pixel measurements of a night. */
export interface NightStars {
  /** By frame id; absent if a frame could not be measured. */
  readonly frames: Readonly<Record<string, FrameStars>>;
  /** Train by train on each target, if frames could be registered. */
  readonly pointings: readonly TrainPointing[];
  readonly pairs: readonly PairPointing[];
  /** What could not be measured, and why. */
  readonly warnings: readonly Warning[];
}
