/** Defocused stars: a ring of light around the shadow of a secondary mirror. */
import { itemAt } from '../../model/collections.js';
import type { Field } from './moments.js';

const STEP = 1;
const REACH = 60;
/** Fraction of the outer radius: light within this belongs to the ring, for its centre. */
const AROUND = 1.3;

/** The ring's outer diameter at half of its brightest radius, px; `undefined` if it leaves the field. */
export function ringFwhm(field: Field, x: number, y: number, level: number): number | undefined {
  const first = diameter(field, x, y, level);
  if (first === undefined) return undefined;
  // About a whole pixel off the centre the ring's edge is smeared.
  const middle = centroid(field, x, y, level, (AROUND * first) / 2);
  return (middle && diameter(field, middle.x, middle.y, level)) ?? first;
}

function diameter({ samples, width, height, parity }: Field, x: number, y: number, level: number): number | undefined {
  const sums = new Float64Array(REACH / STEP);
  const counts = new Float64Array(REACH / STEP);
  const reach = Math.floor(Math.min(REACH, x, y, width - 1 - x, height - 1 - y));
  for (let row = Math.ceil(y - reach); row <= y + reach; row++)
    for (let column = Math.ceil(x - reach); column <= x + reach; column++) {
      if (parity !== undefined && ((column + row) & 1) !== parity) continue;
      const radius = Math.hypot(column - x, row - y);
      if (radius > reach - 1) continue;
      const ring = Math.floor(radius / STEP);
      sums[ring] = (sums[ring] as number) + (samples[row * width + column] as number) - level;
      counts[ring] = (counts[ring] as number) + 1;
    }
  const profile = Array.from(sums, (sum, ring) => (itemAt(counts, ring) > 0 ? sum / itemAt(counts, ring) : 0));
  const top = Math.max(...profile.slice(0, reach));
  const brightest = profile.indexOf(top);
  for (let ring = brightest + 1; ring < reach; ring++) {
    const here = itemAt(profile, ring);
    const before = itemAt(profile, ring - 1);
    if (here < top / 2) return 2 * STEP * (ring - 0.5 + (before - top / 2) / (before - here));
  }
  return undefined;
}

/** The centroid of the light within a radius. */
function centroid(
  { samples, width, height, parity }: Field,
  x: number,
  y: number,
  level: number,
  radius: number,
): { x: number; y: number } | undefined {
  let sum = 0;
  let sumX = 0;
  let sumY = 0;
  for (let row = Math.max(0, Math.ceil(y - radius)); row <= Math.min(height - 1, y + radius); row++)
    for (let column = Math.max(0, Math.ceil(x - radius)); column <= Math.min(width - 1, x + radius); column++) {
      if (parity !== undefined && ((column + row) & 1) !== parity) continue;
      if ((column - x) ** 2 + (row - y) ** 2 > radius * radius) continue;
      const value = (samples[row * width + column] as number) - level;
      sum += value;
      sumX += value * column;
      sumY += value * row;
    }
  const [middleX, middleY] = [sumX / sum, sumY / sum];
  return Math.hypot(middleX - x, middleY - y) < 2 ? { x: middleX, y: middleY } : undefined;
}
