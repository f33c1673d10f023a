/**
 * The nights that the report must stand up to, by name: the site, the trains, the weather and the mishaps are invented
 * throughout.
 */
import type { Site } from '../../../src/model/index.js';
import type { NamedScenario } from './night-of.js';
import { CIERZO_HILL, HERON, IC_1396, M_33, night, NGC_281, planned, STILT, subsOf, turnsOf, WREN } from './parts.js';
import type { Happening, Plans } from './parts.js';

export { CIERZO_HILL, NGC_281 } from './parts.js';

const TWIN: Happening = {
  name: 'twin-night',
  seed: 7,
  begin: '2026-10-19T18:18:40.000Z',
  end: '2026-10-20T05:10:00.000Z',
  trains: planned(
    [
      { ...HERON, refocusAfter: [26, 120] },
      { ...WREN, refocusAfter: [40, 90] },
    ],
    {
      heron: turnsOf('IC 1396', 180, 'Ha', 'OIII', 'SII'),
      wren: turnsOf('IC 1396', 285, 'L', 'R', 'G', 'B'),
    },
  ),
  turns: [
    {
      at: '2026-10-19T22:53:00.000Z',
      plans: { heron: turnsOf('NGC 281', 180, 'Ha', 'OIII'), wren: turnsOf('NGC 281', 285, 'L', 'R', 'G', 'B') },
    },
  ],
  ditherEvery: 3,
  starLost: [{ at: '2026-10-19T21:28:00.000Z', seconds: 46 }],
  clouds: [{ from: '2026-10-19T23:48:00.000Z', to: '2026-10-20T00:13:00.000Z' }],
  flipAt: '2026-10-20T00:53:00.000Z',
  aborts: [{ train: 'wren', at: '2026-10-20T01:48:00.000Z' }],
  roughSpells: [{ from: '2026-10-20T02:58:00.000Z', to: '2026-10-20T03:08:00.000Z', sigmaArcsec: 2.4 }],
  guidingEverySeconds: 4,
  guidingSigmaArcsec: 0.6,
};
const TWIN_TARGETS = [IC_1396, NGC_281];
const QUIET = { turns: [], starLost: [], clouds: [], aborts: [], roughSpells: [], flipAt: undefined };

const ONE_TRAIN: Happening = {
  ...TWIN,
  trains: planned([{ ...HERON, refocusAfter: [26] }], { heron: turnsOf('NGC 281', 180, 'Ha', 'OIII') }),
  turns: [],
};
const THREE_TRAINS: Happening = {
  ...TWIN,
  trains: planned([{ ...HERON, refocusAfter: [26] }, WREN, STILT], {
    heron: turnsOf('IC 1396', 180, 'Ha', 'OIII', 'SII'),
    wren: turnsOf('IC 1396', 285, 'L'),
    stilt: turnsOf('IC 1396', 120, 'Dual band', 'UV/IR cut'),
  }),
  turns: [],
};
const TWO_HOURS: Happening = {
  ...TWIN,
  ...QUIET,
  end: '2026-10-19T20:18:00.000Z',
  trains: planned([{ ...HERON, refocusAfter: [10] }, WREN], {
    heron: turnsOf('IC 1396', 180, 'Ha'),
    wren: turnsOf('IC 1396', 285, 'L'),
  }),
};
/** Three hours with a star that was lost. */
const EVENING: Happening = { ...TWIN, ...QUIET, starLost: TWIN.starLost ?? [], end: '2026-10-19T21:48:00.000Z' };
const NORTHERN_LEDGE: Site = {
  ...CIERZO_HILL,
  name: 'Northern Ledge',
  latitudeDeg: 57.2,
  longitudeDeg: 11.9,
  timezone: 'Europe/Berlin',
};
const FOURTEEN_HOURS: Happening = {
  ...TWIN,
  ...QUIET,
  begin: '2026-12-12T15:40:00.000Z',
  end: '2026-12-13T06:20:00.000Z',
  trains: planned(
    [
      { ...HERON, refocusAfter: [26, 120] },
      { ...WREN, refocusAfter: [60] },
    ],
    {
      heron: turnsOf('M 33', 180, 'L', 'R', 'G', 'B'),
      wren: turnsOf('M 33', 285, 'L', 'Ha'),
    },
  ),
  turns: [
    {
      at: '2026-12-12T22:40:00.000Z',
      plans: { heron: turnsOf('NGC 281', 180, 'Ha', 'OIII', 'SII'), wren: turnsOf('NGC 281', 285, 'OIII') },
    },
  ],
  starLost: [{ at: '2026-12-12T19:10:00.000Z', seconds: 46 }],
  clouds: [{ from: '2026-12-13T00:48:00.000Z', to: '2026-12-13T01:13:00.000Z' }],
};

const LONG_NAME = 'Sh2-129 + Ou4, north-eastern field of a wide mosaic in the wings of the flying bat, panel 3 of 12';
const HOSTILE_NAME = '<script>alert(1)</script> {{x}} & "quoted"';
const LONG_TARGETS = [
  { ...IC_1396, name: LONG_NAME },
  { ...NGC_281, name: HOSTILE_NAME },
];
const LONG_PLANS = {
  early: {
    heron: ['Ha 3 nm edge', 'OIII 3 nm edge'],
    wren: ['Luminance'],
    stilt: ['Dual band', 'UV/IR cut'],
  },
  late: { heron: ['Ha 3 nm edge'], wren: ['{{{filter}}}', '<b>'], stilt: ['Dual band'] },
} as const;
const longPlans = (part: 'early' | 'late', seconds: Readonly<Record<string, number>>): Plans =>
  Object.fromEntries(
    Object.entries(seconds).map(([id, length]) => [
      id,
      turnsOf(part === 'early' ? LONG_NAME : HOSTILE_NAME, length, ...LONG_PLANS[part][id as 'heron']),
    ]),
  );
const USUAL = { heron: 180, wren: 285 };
const LONG_NAMES: Happening = {
  ...TWIN,
  trains: planned(TWIN.trains, longPlans('early', USUAL)),
  turns: [{ at: '2026-10-19T23:18:00.000Z', plans: longPlans('late', USUAL) }],
};
const SHORT = { heron: 160, wren: 160, stilt: 160 };
const LONGEST: Happening = {
  ...FOURTEEN_HOURS,
  ditherEvery: 10,
  trains: planned([{ ...HERON, refocusAfter: [26, 120] }, WREN, STILT], longPlans('early', SHORT)),
  turns: [{ at: '2026-12-12T22:40:00.000Z', plans: longPlans('late', SHORT) }],
};

/** The nights of the gallery, in its order. */
export const NIGHTS: Readonly<Record<string, NamedScenario>> = {
  'twin-night': night(TWIN, { targets: TWIN_TARGETS }),
  'one-train': night(ONE_TRAIN, { targets: [NGC_281] }),
  'three-trains': night(THREE_TRAINS, { targets: TWIN_TARGETS }),
  'two-hours': night(TWO_HOURS, { targets: [IC_1396] }),
  'fourteen-hours': night(FOURTEEN_HOURS, { site: NORTHERN_LEDGE, targets: [NGC_281, M_33], date: '2026-12-12' }),
  'long-names': night(LONG_NAMES, {
    site: { ...CIERZO_HILL, name: 'The upper terrace of the old threshing floor behind the chapel of Cierzo Hill' },
    targets: LONG_TARGETS,
  }),
  'polar-summer': night(
    { ...TWO_HOURS, begin: '2026-06-20T21:45:00.000Z', end: '2026-06-20T23:45:00.000Z' },
    {
      site: { ...CIERZO_HILL, name: 'Midnight Strand', latitudeDeg: 69.3, longitudeDeg: 18.9, timezone: 'Europe/Oslo' },
      targets: [IC_1396],
      date: '2026-06-20',
    },
  ),
  'headers-only': night(TWIN, { targets: TWIN_TARGETS, hasLogs: false, hasCalibration: false, warnings: [] }),
  'no-site': night(TWIN, { site: null, targets: TWIN_TARGETS }),
  'no-guiding': night({ ...TWIN, guidingEverySeconds: 0 }, { targets: TWIN_TARGETS }),
  'none-kept': night(
    {
      ...TWO_HOURS,
      end: '2026-10-19T21:18:00.000Z',
      guidingSigmaArcsec: 3,
      clouds: [{ from: '2026-10-19T19:58:00.000Z', to: '2026-10-19T20:28:00.000Z' }],
    },
    { targets: [IC_1396] },
  ),
  'no-frames': night(TWIN, { targets: TWIN_TARGETS, hasFrames: false, hasCalibration: false }),
};

/** How many frames, and of how many trains: about as many, for pauses and clouds take some. */
const frameCount = (frames: number, trains: 1 | 2 | 3): NamedScenario => {
  const base = frames < 100 ? { ...THREE_TRAINS, ...QUIET, end: TWO_HOURS.end } : THREE_TRAINS;
  const hours = (Date.parse(base.end) - Date.parse(base.begin)) / 3_600_000;
  const seconds = Math.max(20, Math.round((hours * 3600 * trains) / frames) - 8);
  const happening = subsOf(base, seconds, frames < 100 ? 1 : Math.ceil(300 / seconds));
  return night({ ...happening, trains: happening.trains.slice(0, trains) }, { targets: [IC_1396] });
};
const FRAME_COUNTS: Readonly<Record<string, NamedScenario>> = Object.fromEntries(
  ([20, 300, 900] as const).flatMap((frames) =>
    ([1, 2, 3] as const).map((trains) => [`${frames}-frames-${trains}-trains`, frameCount(frames, trains)] as const),
  ),
);

/** A night of subs of one second. */
const shortSubs = (base: Happening, ditherEvery: number): NamedScenario => {
  const happening = subsOf(base, 1, ditherEvery);
  const trains = happening.trains.map((train) => ({ ...train, readoutMs: 700 }));
  return night({ ...happening, trains }, { targets: TWIN_TARGETS });
};

/** Names of the nights that vary in frames and trains alone. */
export const FRAME_COUNT_NAMES = Object.keys(FRAME_COUNTS);

/**
 * Nights by how many frames they have, for what grows with them: print and the page's size. The longest has three
 * trains, nine hundred frames, long names and fourteen hours in one. The gallery and the tests of every night pass them
 * over.
 */
export const COUNTED: Readonly<Record<string, NamedScenario>> = {
  ...FRAME_COUNTS,
  longest: night(LONGEST, {
    site: {
      ...NORTHERN_LEDGE,
      name: 'The upper terrace of the old threshing floor behind the chapel of the Northern Ledge',
    },
    targets: LONG_TARGETS,
    date: '2026-12-12',
  }),
  'twenty-frames': night(subsOf(TWO_HOURS, 600, 1), { targets: [IC_1396] }),
  evening: night(EVENING, { targets: TWIN_TARGETS }),
  'two-thousand-frames': shortSubs(EVENING, 5),
  'twenty-thousand-frames': shortSubs(TWIN, 50),
};
