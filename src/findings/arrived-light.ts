/** How much light arrived around an instant, where star fluxes were measured: haze, cloud and dew reduce it. */
import { median, ownValue, type JudgedFrame, type NightFacts } from '../model/index.js';

/** With less light than this the value of longer hours is unknown. Common practice, no source. */
export const DIM_SHARE = 0.5;
/** Frames within this of an instant count for it, ms. */
const ABOUT_MS = 3_600_000;
/** Fewer are not enough. */
const ENOUGH_FRAMES = 3;

/**
 * The median fraction of a clear sky's light around a frame, as its train measured it; extinction by air mass is
 * excluded.
 *
 * @returns `null` where it was not measured
 */
export function arrivedLight(edge: JudgedFrame, lights: readonly JudgedFrame[], { worth }: NightFacts): number | null {
  const shares = lights.flatMap(({ id, exposure, sky, target, filter }) => {
    const own = ownValue(worth?.frames, id);
    const airmass = sky?.airmass ?? null;
    return own?.transparencyFrom === 'measured' &&
      airmass !== null &&
      target === edge.target &&
      filter === edge.filter &&
      Math.abs(exposure.startMs - edge.exposure.startMs) <= ABOUT_MS
      ? [own.transparency / 10 ** (-0.4 * own.extinctionPerAirmass * (airmass - 1))]
      : [];
  });
  return shares.length < ENOUGH_FRAMES ? null : median(shares);
}
