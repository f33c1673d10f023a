/** A named night with measured stars, as if its pixels had been read. */
import type { FrameStars, Night } from '../../src/model/index.js';
import { namedNight } from './nights.js';

/** Round stars under a clear sky. */
export const CLEAR_STARS: FrameStars = {
  by: 'strips',
  count: 800,
  fwhm: 2.5,
  fwhmUncertainty: 0.02,
  halfFlux: 1.5,
  elongation: 1.06,
  elongationUncertainty: 0.004,
  direction: 40,
  agreement: 0.2,
  background: 500,
  noise: 12,
  flux: 1,
  saturated: 0,
  shift: null,
};

/** @param starsOf what is unlike a clear frame, by the frame's place among the lights; `undefined` for an unmeasured one */
export function starryNight(
  name: string,
  starsOf: (index: number) => Partial<FrameStars> | undefined = () => ({}),
): Night {
  const night = namedNight(name);
  const frames = night.accounts.lights.flatMap(({ id }, index): [string, FrameStars][] => {
    const own = starsOf(index);
    return own === undefined ? [] : [[id, { ...CLEAR_STARS, ...own }]];
  });
  return { ...night, stars: { frames: Object.fromEntries(frames), pairs: [], pointings: [], warnings: [] } };
}
