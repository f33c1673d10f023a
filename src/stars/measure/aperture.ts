/** Flux in a round aperture and the radius that holds half of it. */
import type { Field } from './moments.js';

/** Aperture radius in FWHM, and px at least. */
export const APERTURE_FWHM = 3;
export const APERTURE_MIN = 4;
/** Variance of a pixel's own width per axis, px². */
export const PIXEL_VARIANCE = 1 / 12;

export function apertureRadius(fwhm: number): number {
  return Math.min(Math.max(APERTURE_FWHM * fwhm, APERTURE_MIN), 40);
}

/**
 * Sum above the background; pixels on the edge count by the part inside. `NaN` where the aperture leaves the field.
 * With a parity the sum is doubled: green pixels stand for all.
 */
export function apertureFlux(field: Field, x: number, y: number, level: number, radius: number): number {
  const { samples, width, height, parity } = field;
  const left = Math.floor(x - radius);
  const right = Math.ceil(x + radius);
  const top = Math.floor(y - radius);
  const bottom = Math.ceil(y + radius);
  if (left < 0 || top < 0 || right >= width || bottom >= height) return NaN;
  const inner = (radius - 0.71) ** 2;
  const outer = (radius + 0.71) ** 2;
  let sum = 0;
  for (let row = top; row <= bottom; row++) {
    const dy2 = (row - y) ** 2;
    for (let column = left; column <= right; column++) {
      const square = (column - x) ** 2 + dy2;
      if (square > outer || (parity !== undefined && ((column + row) & 1) !== parity)) continue;
      const value = (samples[row * width + column] as number) - level;
      sum += square < inner ? value : value * Math.min(1, Math.max(0, radius - Math.sqrt(square) + 0.5));
    }
  }
  return parity === undefined ? sum : 2 * sum;
}

/** Cells a pixel is split into along each axis where the radius matters. */
const SPLIT = 4;
const STEP = 0.1;

export class HalfFlux {
  private readonly rings = new Float64Array(512);

  /** The radius that holds half of the flux within the aperture, px; `undefined` without flux. */
  radius(field: Field, x: number, y: number, level: number, aperture: number): number | undefined {
    const { samples, width, height, parity } = field;
    const rings = this.rings.fill(0);
    // Half of the flux lies well within half of the aperture; farther pixels count for the sum alone.
    const near = Math.max(0.5 * aperture, 3) ** 2;
    const left = Math.max(0, Math.floor(x - aperture));
    const right = Math.min(width - 1, Math.ceil(x + aperture));
    const top = Math.max(0, Math.floor(y - aperture));
    const bottom = Math.min(height - 1, Math.ceil(y + aperture));
    const last = Math.min(Math.floor(aperture / STEP), rings.length - 1);
    for (let row = top; row <= bottom; row++)
      for (let column = left; column <= right; column++) {
        if (parity !== undefined && ((column + row) & 1) !== parity) continue;
        const value = (samples[row * width + column] as number) - level;
        const square = (column - x) ** 2 + (row - y) ** 2;
        const split = square < near ? SPLIT : 1;
        const part = value / (split * split);
        for (let j = 0; j < split; j++) {
          const dy2 = (row - y + (j + 0.5) / split - 0.5) ** 2;
          for (let i = 0; i < split; i++) {
            const ring = Math.sqrt((column - x + (i + 0.5) / split - 0.5) ** 2 + dy2) / STEP;
            if (ring < last) rings[ring | 0] = (rings[ring | 0] as number) + part;
          }
        }
      }
    let total = 0;
    for (let ring = 0; ring < last; ring++) total += rings[ring] as number;
    if (!(total > 0)) return undefined;
    let left2 = total / 2;
    for (let ring = 0; ring < last; ring++) {
      const here = rings[ring] as number;
      if (here >= left2) {
        // Spreading each pixel over its square added the pixel's width once more; a Gaussian's radius² is 2 ln 2 · σ².
        const square = ((ring + left2 / here) * STEP) ** 2 - 2 * Math.LN2 * PIXEL_VARIANCE;
        return square > 0 ? Math.sqrt(square) : undefined;
      }
      left2 -= here;
    }
    return undefined;
  }
}
