/** FWHM in 3 × 3 zones: tilt and curvature show there. */
import { median } from '../../model/statistics.js';
import type { FoundStar } from './found-star.js';
import type { StarShape } from './summary.js';

const ZONE_STARS_MIN = 5;

/** Medians row by row from the first pixel; `null` for a zone with fewer than five stars. */
export function zoneWidths(
  shapes: ReadonlyMap<FoundStar, StarShape>,
  width: number,
  height: number,
): (number | null)[] {
  const zones: number[][] = Array.from({ length: 9 }, () => []);
  for (const [star, { fwhm }] of shapes) {
    const column = Math.min(2, Math.max(0, Math.floor((star.x * 3) / width)));
    const row = Math.min(2, Math.max(0, Math.floor((star.y * 3) / height)));
    zones[row * 3 + column]?.push(fwhm);
  }
  return zones.map((widths) => (widths.length < ZONE_STARS_MIN ? null : median(widths)));
}
