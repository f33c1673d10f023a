/** The usual width of each train's stars, as the sigma of a Gaussian: the reference for movement. */
import { groupBy, ownValue } from '../../collections.js';
import type { Frame } from '../../frame.js';
import { sensorScaleArcsec, type Train } from '../../gathered.js';
import type { NightStars } from '../../stars.js';
import { fwhmPixels } from '../../star-size.js';
import { median } from '../../statistics.js';

/** Sigma of a Gaussian per full width at half maximum. */
export const SIGMA_PER_FWHM = 1 / Math.sqrt(8 * Math.LN2);

/**
 * Medians over a train's lights: of the FWHM measured in the pixels (sensor pixels, regardless of binning), else of the
 * star size in the headers (pixels as stored), if its measure is known.
 *
 * @returns arcseconds by train; absent if neither size nor pixel scale is known
 */
export function starSigmas({
  lights,
  trains,
  stars,
}: {
  readonly lights: readonly Frame[];
  readonly trains: readonly Train[];
  readonly stars: Pick<NightStars, 'frames'> | null;
}): ReadonlyMap<string, number> {
  const known = new Map(trains.map((train) => [train.id, train]));
  return new Map(
    [...groupBy(lights, (frame) => frame.train)].flatMap(([train, frames]) => {
      const optics = known.get(train);
      const measured = frames.flatMap(({ id }) => ownValue(stars?.frames, id)?.fwhm ?? []);
      const stated = frames.flatMap(({ header }) => fwhmPixels(header) ?? []);
      const scale = optics && (measured.length > 0 ? sensorScaleArcsec(optics) : optics.pixelScaleArcsec);
      const pixels = median(measured.length > 0 ? measured : stated) * SIGMA_PER_FWHM;
      return scale !== undefined && pixels > 0 ? [[train, pixels * scale] as const] : [];
    }),
  );
}
