/**
 * The sample nights. Everything in them is invented: the observatory, the trains, the nights.
 */
import type { Scenario, ScenarioTarget, ScenarioTrain } from './scenario.js';

export const CIERZO_HILL = {
  name: 'Cierzo Hill',
  latitude: 40.42,
  longitude: -1.12,
  elevation: 1100,
  timezone: 'Europe/Madrid',
} as const;

/** J2000 positions of real objects, rounded; from memory. */
export const TARGETS = {
  ngc281: { name: 'NGC 281', ra: '00:52:59', dec: '+56:37:19', raDeg: 13.2458, decDeg: 56.622 },
  ic1396: { name: 'IC 1396', ra: '21:39:06', dec: '+57:30:00', raDeg: 324.775, decDeg: 57.5 },
  m33: { name: 'M 33', ra: '01:33:51', dec: '+30:39:37', raDeg: 23.4625, decDeg: 30.6602 },
} as const satisfies Record<string, ScenarioTarget>;

export const HERON: ScenarioTrain = {
  id: 'heron',
  role: 'pilot',
  telescope: 'heron',
  camera: 'mono 26 MP',
  focalLengthMm: 480,
  apertureMm: 80,
  plan: [],
  readoutMs: 2600,
  startOffsetMin: 0,
  refocusAfter: [],
  patienceMs: 0,
};

export const WREN: ScenarioTrain = {
  id: 'wren',
  role: 'companion',
  telescope: 'wren',
  camera: 'mono 26 MP',
  focalLengthMm: 600,
  apertureMm: 150,
  plan: [],
  readoutMs: 3100,
  startOffsetMin: 2.5,
  refocusAfter: [],
  patienceMs: 45_000,
};

/** A whole autumn night with everything that can go wrong, once each. */
export const TWIN_NIGHT: Scenario = {
  name: 'twin-night',
  seed: 20261014,
  begin: '2026-10-14T19:02:30.000Z',
  end: '2026-10-15T04:40:00.000Z',
  site: CIERZO_HILL,
  trains: [
    {
      ...HERON,
      plan: [
        { target: 'NGC 281', filter: 'Ha', seconds: 300, count: 36 },
        { target: 'NGC 281', filter: 'OIII', seconds: 300, count: 36 },
        { target: 'NGC 281', filter: 'SII', seconds: 300, count: 36 },
      ],
      refocusAfter: [41],
    },
    {
      ...WREN,
      plan: [
        { target: 'NGC 281', filter: 'Ha', seconds: 240, count: 44 },
        { target: 'NGC 281', filter: 'OIII', seconds: 240, count: 44 },
        { target: 'NGC 281', filter: 'SII', seconds: 240, count: 44 },
      ],
      refocusAfter: [52],
    },
  ],
  targets: [TARGETS.ngc281],
  ditherEvery: 3,
  starLost: [
    { at: '2026-10-14T21:17:20.000Z', seconds: 48 },
    { at: '2026-10-15T00:31:40.000Z', seconds: 11 },
  ],
  clouds: [{ from: '2026-10-15T02:20:00.000Z', to: '2026-10-15T02:52:00.000Z' }],
  flipAt: '2026-10-14T23:40:00.000Z',
  guidingEverySeconds: 6,
  guidingSigmaArcsec: 0.62,
};

/** A shorter night of broadband, of which only the frames remain. */
export const HEADERS_ONLY: Scenario = {
  name: 'headers-only',
  seed: 20261109,
  begin: '2026-11-09T18:20:00.000Z',
  end: '2026-11-09T22:10:00.000Z',
  site: CIERZO_HILL,
  trains: [
    {
      ...HERON,
      plan: [
        { target: 'M 33', filter: 'L', seconds: 180, count: 24 },
        { target: 'M 33', filter: 'R', seconds: 180, count: 12 },
        { target: 'M 33', filter: 'G', seconds: 180, count: 12 },
        { target: 'M 33', filter: 'B', seconds: 180, count: 12 },
      ],
      refocusAfter: [30],
    },
    {
      ...WREN,
      plan: [
        { target: 'M 33', filter: 'L', seconds: 180, count: 36 },
        { target: 'M 33', filter: 'Ha', seconds: 180, count: 24 },
      ],
    },
  ],
  targets: [TARGETS.m33],
  ditherEvery: 3,
  starLost: [],
  clouds: [],
  guidingEverySeconds: 0,
  guidingSigmaArcsec: 0.6,
};

/** The night on which summer time ends, logged by two huts and a guide trace in formats of their own; a bright Moon. */
export const MIXED_DIALECTS: Scenario = {
  name: 'mixed-dialects',
  seed: 20261024,
  begin: '2026-10-24T19:30:00.000Z',
  end: '2026-10-25T02:30:00.000Z',
  site: CIERZO_HILL,
  trains: [
    {
      ...HERON,
      plan: [
        { target: 'IC 1396', filter: 'Ha', seconds: 600, count: 20 },
        { target: 'IC 1396', filter: 'SII', seconds: 600, count: 30 },
      ],
      refocusAfter: [17],
    },
    {
      ...WREN,
      startOffsetMin: 2,
      plan: [
        { target: 'IC 1396', filter: 'Ha', seconds: 300, count: 40 },
        { target: 'IC 1396', filter: 'OIII', seconds: 300, count: 60 },
      ],
      refocusAfter: [41],
    },
  ],
  targets: [TARGETS.ic1396],
  ditherEvery: 2,
  starLost: [{ at: '2026-10-25T01:12:00.000Z', seconds: 40 }],
  clouds: [{ from: '2026-10-24T22:31:00.000Z', to: '2026-10-24T22:48:00.000Z' }],
  guidingEverySeconds: 10,
  guidingSigmaArcsec: 0.7,
};
