/** Defocused stars: a ring of light around the shadow of a secondary mirror. */
import type { Field } from './moments.js';

const STEP = 1;
const REACH = 60;

/** The ring's outer diameter at half of its brightest radius, px; `undefined` where it leaves the field. */
export function ringFwhm(
  { samples, width, height, parity }: Field,
  x: number,
  y: number,
  level: number,
): number | undefined {
  const sums = new Float64Array(REACH / STEP);
  const counts = new Float64Array(REACH / STEP);
  const reach = Math.min(REACH, x, y, width - 1 - x, height - 1 - y);
  for (let row = y - reach; row <= y + reach; row++)
    for (let column = x - reach; column <= x + reach; column++) {
      if (parity !== undefined && ((column + row) & 1) !== parity) continue;
      const radius = Math.hypot(column - x, row - y);
      if (radius > reach - 1) continue;
      const ring = Math.floor(radius / STEP);
      sums[ring] = (sums[ring] as number) + (samples[row * width + column] as number) - level;
      counts[ring] = (counts[ring] as number) + 1;
    }
  const profile = Array.from(sums, (sum, ring) => ((counts[ring] ?? 0) > 0 ? sum / (counts[ring] ?? 1) : 0));
  const top = Math.max(...profile.slice(0, reach));
  const brightest = profile.indexOf(top);
  for (let ring = brightest + 1; ring < reach; ring++) {
    const here = profile[ring] ?? 0;
    const before = profile[ring - 1] ?? 0;
    if (here < top / 2) return 2 * STEP * (ring - 0.5 + (before - top / 2) / (before - here));
  }
  return undefined;
}
