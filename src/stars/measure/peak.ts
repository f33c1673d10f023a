/** A star's brightest pixel. */
import type { Field } from './moments.js';

/** The largest sample around a position, and how many pixels share it: more than one on a flat peak. */
export function peakOf(
  { samples, width, height, parity }: Field,
  x: number,
  y: number,
): { peak: number; plateau: number } {
  let peak = -Infinity;
  let plateau = 0;
  for (let row = Math.max(0, y - 2); row <= Math.min(height - 1, y + 2); row++)
    for (let column = Math.max(0, x - 2); column <= Math.min(width - 1, x + 2); column++) {
      if (parity !== undefined && ((column + row) & 1) !== parity) continue;
      const value = samples[row * width + column] as number;
      if (value > peak) {
        peak = value;
        plateau = 1;
      } else if (value === peak) plateau++;
    }
  return { peak, plateau };
}
