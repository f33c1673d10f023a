/**
 * Instants at which no light can have been taken.
 */
import type { HeaderFacts, Site } from '../model/index.js';
import { BELOW_HORIZON_DEG } from './below-horizon.js';
import { makeSkyObserver } from './position.js';

/**
 * Sun's centre above this: civil twilight, when the sky is more than a thousand times as bright as at night, degrees.
 * Common practice, no source.
 */
const TOO_BRIGHT_DEG = -6;
/** How a day is sampled for light nights: the Sun stays above the limit, and people image all the same. */
const DAY_MS = 86_400_000;
const SAMPLES = 48;

/**
 * Determines whether a light of a header's field cannot have been taken at an instant: in daylight, or below the
 * horizon.
 */
export function impossibleLight(site: Site): (header: Pick<HeaderFacts, 'pointing'>, atMs: number) => boolean {
  const observer = makeSkyObserver(site);
  const lightDays = new Map<number, boolean>();
  const isLightNight = (atMs: number): boolean => {
    const day = Math.floor(atMs / DAY_MS);
    const known = lightDays.get(day);
    if (known !== undefined) return known;
    const found = Array.from({ length: SAMPLES }, (_, i) => (day + i / SAMPLES) * DAY_MS).every(
      (ms) => observer.at(ms).sun.altitudeDeg > TOO_BRIGHT_DEG,
    );
    lightDays.set(day, found);
    return found;
  };
  return ({ pointing }, atMs) => {
    const moment = observer.at(atMs);
    if (moment.sun.altitudeDeg > TOO_BRIGHT_DEG && !isLightNight(atMs)) return true;
    if (pointing === undefined) return false;
    return moment.direction(pointing).altitudeDeg < BELOW_HORIZON_DEG;
  };
}
