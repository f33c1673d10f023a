import type { FrameStars, UsualStars } from '../../../src/model/index.js';

/** Stars in which nothing is wrong, but for what is given. */
export function stars(more: Partial<FrameStars> = {}): FrameStars {
  return {
    by: 'strips',
    count: 200,
    fwhm: 3,
    fwhmUncertainty: 0.02,
    halfFlux: 1.8,
    elongation: 1.08,
    direction: 40,
    agreement: 0.2,
    background: 400,
    noise: 12,
    flux: 0.97,
    saturated: 0,
    shift: null,
    ...more,
  };
}

/** The usual of a good night, but for what is given. */
export function usual(more: Partial<UsualStars> = {}): UsualStars {
  return {
    of: 'group',
    frames: 20,
    fwhm: 3,
    elongation: 1.08,
    count: 210,
    sky: { background: 400, noise: 12 },
    ...more,
  };
}
