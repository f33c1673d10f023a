/** How much of the light arrived about an instant, where star fluxes were measured: haze, cloud and dew take of it. */
import { median, ownValue, type JudgedFrame, type NightFacts } from '../model/index.js';

/** With less of the light than this nobody can say what longer hours are worth. Common practice, no source. */
export const DIM_SHARE = 0.5;
/** Frames within this of an instant speak for it, ms. */
const ABOUT_MS = 3_600_000;
/** Fewer say nothing. */
const ENOUGH_FRAMES = 3;

/**
 * The median share of a clear sky's light about a frame, as its train saw it; what the air mass takes is left out.
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
