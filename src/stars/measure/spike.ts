/**
 * Hot pixels and particles in the wings of a star: light that no optics produce, and that moves relative to the stars
 * with every dither. Otherwise it would dominate the flux of the fainter ones.
 */
import type { Field } from './moments.js';

/** A spike exceeds its neighbours by this many standard deviations of the sky (common practice, no source). */
const SPIKE_SIGMAS = 8;
/**
 * And by this multiple of their mean, excluding the two brightest of them, such as an adjacent hot pixel. A star of 2
 * px FWHM exceeds its neighbours by twice their mean, a wider one and wings by less.
 */
const SPIKE_FACTOR = 3;
/** Closer to the centre than this many FWHM the star itself is steep. */
const CORE_FWHM = 0.8;
const CORE_MIN = 2;

/** Steps to the neighbours, columns and rows; between green pixels only green ones are measured. */
const AROUND = [-1, -1, 0, -1, 1, -1, -1, 0, 1, 0, -1, 1, 0, 1, 1, 1];
const AROUND_GREEN = [-1, -1, 1, -1, -1, 1, 1, 1, -2, 0, 2, 0, 0, -2, 0, 2];

/** Where spikes are searched for around a star. */
export interface Wings {
  /** Standard deviation of the sky, in the samples' units. */
  readonly noise: number;
  /** Of the stars about here, px. */
  readonly fwhm: number;
}

/** How stars of one band are summed. */
export interface Aperture {
  /** px. */
  readonly radius: number;
  /** Checks whether hot pixels in the wings of stars are frequent enough to be searched for. */
  readonly wings: Pick<Wings, 'fwhm'> | undefined;
}

/** Where spikes are searched for around one star of a band, if at all. */
export function wingsOf(wings: Aperture['wings'], { noise }: Pick<Wings, 'noise'>): Wings | undefined {
  return wings && { ...wings, noise };
}

/** Distance from the star's centre beyond which spikes are searched for, px. */
export function coreRadius({ fwhm }: Wings): number {
  return Math.max(CORE_MIN, CORE_FWHM * fwhm);
}

/** Level above which a sample may be a spike. */
export function spikeLimit(level: number, { noise }: Wings): number {
  return level + SPIKE_SIGMAS * noise;
}

/** Excess of a spike at a pixel over the light implied by its neighbours, in the samples' units; 0 if it is none. */
export function spikeAt({ samples, width, height, parity }: Field, x: number, y: number, level: number): number {
  const steps = parity === undefined ? AROUND : AROUND_GREEN;
  let sum = 0;
  let count = 0;
  let first = -Infinity;
  let second = -Infinity;
  for (let i = 0; i < steps.length; i += 2) {
    const column = x + (steps[i] as number);
    const row = y + (steps[i + 1] as number);
    if (column < 0 || row < 0 || column >= width || row >= height) continue;
    const value = (samples[row * width + column] as number) - level;
    sum += value;
    count++;
    if (value > first) {
      second = first;
      first = value;
    } else if (value > second) second = value;
  }
  if (count < 5) return 0;
  const around = (sum - first - second) / (count - 2);
  const excess = (samples[y * width + x] as number) - level - around;
  return excess > SPIKE_FACTOR * Math.max(0, around) ? excess : 0;
}
