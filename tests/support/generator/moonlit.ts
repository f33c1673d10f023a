/**
 * Moonlit nights, for tests only. Invented as the samples are; the Moon is the real one.
 */
import type { Scenario } from './scenario.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from './scenarios.js';

const RIG = {
  darkSky: 21.4,
  camera: { readNoise: 1.5, gain: 0.25, darkCurrent: 0.001 },
  filterWidthsNm: { L: 300, R: 100, G: 100, B: 100, Ha: 3, OIII: 3, SII: 3 },
} as const;

/** The Moon is full and stands some 45° from the target from dusk to dawn. */
export const FULL_MOON: Scenario = {
  name: 'full-moon',
  seed: 20261025,
  begin: '2026-10-25T18:40:00.000Z',
  end: '2026-10-26T04:30:00.000Z',
  site: CIERZO_HILL,
  trains: [
    {
      ...HERON,
      plan: [
        { target: 'NGC 281', filter: 'L', seconds: 180, count: 48 },
        { target: 'NGC 281', filter: 'Ha', seconds: 300, count: 40 },
        { target: 'NGC 281', filter: 'OIII', seconds: 300, count: 30 },
      ],
      refocusAfter: [60],
    },
    {
      ...WREN,
      plan: [
        { target: 'NGC 281', filter: 'R', seconds: 120, count: 45 },
        { target: 'NGC 281', filter: 'G', seconds: 120, count: 45 },
        { target: 'NGC 281', filter: 'B', seconds: 120, count: 45 },
      ],
    },
  ],
  targets: [TARGETS.ngc281],
  ditherEvery: 3,
  starLost: [],
  clouds: [],
  flipAt: '2026-10-25T22:50:00.000Z',
  guidingEverySeconds: 0,
  guidingSigmaArcsec: 0.6,
  ...RIG,
};

/** A gibbous Moon rises in the evening; narrow bands are taken before it and broad bands under it. */
export const MOON_RISES: Scenario = {
  ...FULL_MOON,
  name: 'moon-rises',
  seed: 20261030,
  begin: '2026-10-30T18:30:00.000Z',
  end: '2026-10-31T04:40:00.000Z',
  flipAt: '2026-10-30T22:30:00.000Z',
  trains: [
    {
      ...HERON,
      plan: [
        { target: 'NGC 281', filter: 'Ha', seconds: 300, count: 34 },
        { target: 'NGC 281', filter: 'L', seconds: 180, count: 60 },
        { target: 'NGC 281', filter: 'B', seconds: 180, count: 60 },
      ],
      refocusAfter: [60],
    },
    { ...WREN, plan: [{ target: 'NGC 281', filter: 'OIII', seconds: 240, count: 150 }] },
  ],
};
