/** FWHM in 3 × 3 zones: reveals tilt and curvature. */
import { median } from '../../model/statistics.js';
import type { FoundStar } from './found-star.js';
import type { StarShape } from './summary.js';

/** Number of star pairs in one zone from which the spread from star to star is known. */
const PAIRS_MIN = 6;
/** Median distance of two values from one normal distribution, in its standard deviations: √2 × 0.6745 (D). */
const DISTANCE_PER_SIGMA = 0.9539;

export interface ZoneWidths {
  /** Medians, px, row by row from the first pixel; `null` for a zone without a star. */
  readonly zones: readonly (number | null)[];
  /** Their standard errors, from how widths of stars in one zone differ; `null` with too few stars. */
  readonly zoneUncertainties: readonly (number | null)[];
}

/** A single star is enough for a zone: its uncertainty is given as well, and frames are combined later. */
export function zoneWidths(shapes: ReadonlyMap<FoundStar, StarShape>, width: number, height: number): ZoneWidths {
  const zones: number[][] = Array.from({ length: 9 }, () => []);
  for (const [star, { fwhm }] of shapes) {
    const column = Math.min(2, Math.max(0, Math.floor((star.x * 3) / width)));
    const row = Math.min(2, Math.max(0, Math.floor((star.y * 3) / height)));
    zones[row * 3 + column]?.push(fwhm);
  }
  const spread = spreadWithin(zones);
  return {
    zones: zones.map((widths) => (widths.length === 0 ? null : median(widths))),
    zoneUncertainties: zones.map((widths) =>
      spread === undefined || widths.length === 0
        ? null
        : ((widths.length < 3 ? 1 : 1.253) * spread) / Math.sqrt(widths.length),
    ),
  };
}

/** Standard deviation from star to star inside a zone, whatever the zones' own widths are. */
function spreadWithin(zones: readonly (readonly number[])[]): number | undefined {
  const distances = zones.flatMap((widths) =>
    widths.flatMap((one, index) => widths.slice(index + 1).map((other) => Math.abs(one - other))),
  );
  return distances.length < PAIRS_MIN ? undefined : median(distances) / DISTANCE_PER_SIGMA;
}
