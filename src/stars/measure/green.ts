/** Colour sensors: the green pixels of the mosaic. */
import type { Samples } from '../pixels/bands.js';

/**
 * The parity of (x + y) of the green pixels, counted from 0 as stored; `undefined` unless it is a mosaic of red, green
 * and blue.
 */
export function greenParity(pattern: string | undefined): 0 | 1 | undefined {
  switch (pattern?.trim().toUpperCase()) {
    case 'RGGB':
    case 'BGGR':
      return 1;
    case 'GRBG':
    case 'GBRG':
      return 0;
    default:
      return undefined;
  }
}

/**
 * Replaces the pixels between the green ones with the mean of their neighbours, for detection; sizes are measured on
 * green only.
 */
export function fillBetweenGreen(samples: Samples, width: number, parity: 0 | 1): void {
  const height = samples.length / width;
  for (let y = 0; y < height; y++) {
    const row = y * width;
    for (let x = (y + parity + 1) & 1; x < width; x += 2) {
      const left = samples[row + (x > 0 ? x - 1 : x + 1)] as number;
      const right = samples[row + (x < width - 1 ? x + 1 : x - 1)] as number;
      const above = samples[y > 0 ? row + x - width : row + x + width] as number;
      const below = samples[y < height - 1 ? row + x + width : row + x - width] as number;
      samples[row + x] = (left + right + above + below) / 4;
    }
  }
}
