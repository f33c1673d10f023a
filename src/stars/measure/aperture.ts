/** Flux in a circular aperture and the radius that contains half of it. */
import type { Field } from './moments.js';
import { coreRadius, spikeAt, spikeLimit, type Wings } from './spike.js';

/** Aperture radius in FWHM, and px at least. */
export const APERTURE_FWHM = 3;
export const APERTURE_MIN = 4;
const CLOSE_FWHM = 1.2;
/** Variance of a pixel's own width per axis, px². */
export const PIXEL_VARIANCE = 1 / 12;

export function apertureRadius(fwhm: number): number {
  return Math.min(Math.max(APERTURE_FWHM * fwhm, APERTURE_MIN), 40);
}

/** Aperture of close swollen stars: a defocused star's ring is within half a FWHM. */
export function closeRadius(fwhm: number): number {
  return Math.min(Math.max(CLOSE_FWHM * fwhm, APERTURE_MIN), 40);
}

/**
 * Sum above the background, excluding hot pixels in the wings if these are checked; edge pixels count by the fraction
 * inside. `NaN` if the aperture leaves the field. With a parity the sum is doubled: green pixels represent all.
 */
export function apertureFlux(
  field: Field,
  x: number,
  y: number,
  level: number,
  radius: number,
  wings: Wings | undefined,
): number {
  const { samples, width, height, parity } = field;
  const left = Math.floor(x - radius);
  const right = Math.ceil(x + radius);
  const top = Math.floor(y - radius);
  const bottom = Math.ceil(y + radius);
  if (left < 0 || top < 0 || right >= width || bottom >= height) return NaN;
  const step = parity === undefined ? 1 : 2;
  let sum = 0;
  for (let row = top; row <= bottom; row++) {
    const dy2 = (row - y) ** 2;
    const start = row * width;
    // Columns whose pixels are entirely inside need no individual check; those on either side are on the edge, or
    // beyond.
    const half = Math.sqrt(Math.max(0, (radius - EDGE) ** 2 - dy2));
    const within = dy2 < (radius - EDGE) ** 2;
    const first = within ? Math.ceil(x - half) : right + 1;
    const end = within ? Math.floor(x + half) : right;
    const shift = parity === undefined ? 0 : (left + row + parity) & 1;
    let column = left + shift;
    for (; column <= right; column += step) {
      if (column >= first) for (; column <= end; column += step) sum += (samples[start + column] as number) - level;
      const share = insideShare((column - x) ** 2 + dy2, radius);
      if (share > 0 && column <= right) sum += ((samples[start + column] as number) - level) * share;
    }
  }
  return step * (wings === undefined ? sum : sum - spikes(field, x, y, level, radius, wings));
}

/** What hot pixels in the wings add to the sum. */
function spikes(field: Field, x: number, y: number, level: number, radius: number, wings: Wings): number {
  const { samples, width, parity } = field;
  const core = coreRadius(wings) ** 2;
  const limit = spikeLimit(level, wings);
  let sum = 0;
  for (let row = Math.floor(y - radius); row <= Math.ceil(y + radius); row++) {
    const dy2 = (row - y) ** 2;
    const half = Math.sqrt(Math.max(0, (radius + 0.5) ** 2 - dy2));
    for (let column = Math.ceil(x - half); column <= x + half; column++) {
      if (!((samples[row * width + column] as number) > limit)) continue;
      const square = (column - x) ** 2 + dy2;
      if (square < core || (parity !== undefined && ((column + row) & 1) !== parity)) continue;
      const spike = spikeAt(field, column, row, level);
      if (spike > limit - level) sum += spike * insideShare(square, radius);
    }
  }
  return sum;
}

/** Pixels this much inside of the edge are so as a whole: half of a diagonal. */
const EDGE = 0.71;

/** The fraction of a pixel inside the radius, from the squared distance of its centre. */
function insideShare(square: number, radius: number): number {
  return square >= (radius + 0.5) ** 2 ? 0 : Math.min(1, radius - Math.sqrt(square) + 0.5);
}

/** Subdivisions of a pixel along each axis where the radius matters. */
const SPLIT = 4;
/** Rings of equal area, up to the largest possible half-flux radius. */
const RINGS = 256;

export class HalfFlux {
  private readonly rings = new Float64Array(RINGS);

  /** The radius that contains half of the flux within the aperture, px; `undefined` without flux. */
  radius(
    field: Field,
    x: number,
    y: number,
    level: number,
    aperture: number,
    wings: Wings | undefined,
  ): number | undefined {
    const { samples, width, height, parity } = field;
    const rings = this.rings.fill(0);
    // The half-flux radius is well within half of the aperture; farther pixels only count for the sum.
    const near = Math.max(0.5 * aperture, 3) ** 2;
    const perArea = RINGS / near;
    const within = aperture * aperture;
    const left = Math.max(0, Math.floor(x - aperture));
    const right = Math.min(width - 1, Math.ceil(x + aperture));
    const top = Math.max(0, Math.floor(y - aperture));
    const bottom = Math.min(height - 1, Math.ceil(y + aperture));
    const core = wings === undefined ? Infinity : coreRadius(wings) ** 2;
    const limit = wings === undefined ? Infinity : spikeLimit(level, wings);
    let total = 0;
    for (let row = top; row <= bottom; row++)
      for (let column = left; column <= right; column++) {
        if (parity !== undefined && ((column + row) & 1) !== parity) continue;
        const square = (column - x) ** 2 + (row - y) ** 2;
        if (square >= within) continue;
        let value = (samples[row * width + column] as number) - level;
        if (value > limit - level && square >= core) {
          const spike = spikeAt(field, column, row, level);
          if (spike > limit - level) value -= spike;
        }
        total += value;
        if (square >= near) continue;
        const part = value / (SPLIT * SPLIT);
        for (let j = 0; j < SPLIT; j++) {
          const dy = row - y + (j + 0.5) / SPLIT - 0.5;
          for (let i = 0; i < SPLIT; i++) {
            const dx = column - x + (i + 0.5) / SPLIT - 0.5;
            const ring = ((dx * dx + dy * dy) * perArea) | 0;
            if (ring < RINGS) rings[ring] = (rings[ring] as number) + part;
          }
        }
      }
    if (!(total > 0)) return undefined;
    let left2 = total / 2;
    for (let ring = 0; ring < RINGS; ring++) {
      const here = rings[ring] as number;
      if (here >= left2) {
        // Spreading each pixel over its square added the pixel's width once more; a Gaussian's radius² is 2 ln 2 · σ².
        const square = (ring + left2 / here) / perArea - 2 * Math.LN2 * PIXEL_VARIANCE;
        return square > 0 ? Math.sqrt(square) : undefined;
      }
      left2 -= here;
    }
    return undefined;
  }
}
