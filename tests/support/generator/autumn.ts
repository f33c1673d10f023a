/**
 * An autumn of twelve nights, three targets, two trains. Everything in it is invented.
 */
import type { Scenario, ScenarioTarget } from './scenario.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from './scenarios.js';

type Plan = readonly (readonly [filter: string, seconds: number, count: number])[];

interface AutumnNight {
  readonly target: ScenarioTarget;
  /** UTC; `end` may be on the next day. */
  readonly begin: string;
  readonly hours: number;
  readonly heron: Plan;
  readonly wren: Plan;
  readonly guidingSigmaArcsec: number;
  readonly starLost?: readonly { readonly afterHours: number; readonly seconds: number }[];
  readonly cloud?: { readonly afterHours: number; readonly minutes: number };
  readonly refocusAfter?: readonly [heron: readonly number[], wren: readonly number[]];
  /** Only the frames of this night remain. */
  readonly headersOnly?: boolean;
}

const { ngc281, ic1396, m33 } = TARGETS;

/** Oldest first. From the sixth night on both trains expose equally long, and hardly wait for each other any more. */
export const AUTUMN: readonly AutumnNight[] = [
  {
    target: ic1396,
    begin: '2026-09-08T19:50:00Z',
    hours: 4.2,
    heron: [['Ha', 420, 60]],
    wren: [['Ha', 360, 60]],
    guidingSigmaArcsec: 0.74,
    refocusAfter: [[18], [21]],
  },
  {
    target: ic1396,
    begin: '2026-09-12T19:45:00Z',
    hours: 4.4,
    heron: [['OIII', 420, 60]],
    wren: [
      ['Ha', 360, 18],
      ['OIII', 360, 60],
    ],
    guidingSigmaArcsec: 0.7,
    starLost: [{ afterHours: 2.3, seconds: 55 }],
  },
  {
    target: ic1396,
    begin: '2026-09-19T19:32:00Z',
    hours: 2.6,
    heron: [['OIII', 420, 60]],
    wren: [['OIII', 360, 60]],
    guidingSigmaArcsec: 0.81,
    headersOnly: true,
  },
  {
    target: ngc281,
    begin: '2026-09-27T20:10:00Z',
    hours: 5.1,
    heron: [['Ha', 420, 60]],
    wren: [['Ha', 360, 60]],
    guidingSigmaArcsec: 0.66,
    refocusAfter: [[17], [28]],
  },
  {
    target: ngc281,
    begin: '2026-10-02T19:20:00Z',
    hours: 4.8,
    heron: [
      ['Ha', 420, 14],
      ['OIII', 420, 60],
    ],
    wren: [['OIII', 360, 60]],
    guidingSigmaArcsec: 0.62,
    starLost: [{ afterHours: 3.4, seconds: 70 }],
  },
  {
    target: m33,
    begin: '2026-10-08T20:30:00Z',
    hours: 5.2,
    heron: [
      ['L', 300, 28],
      ['R', 300, 14],
      ['B', 300, 30],
    ],
    wren: [
      ['L', 300, 40],
      ['G', 300, 30],
    ],
    guidingSigmaArcsec: 0.64,
    refocusAfter: [[31], [44]],
  },
  {
    target: m33,
    begin: '2026-10-11T20:20:00Z',
    hours: 3.4,
    heron: [
      ['L', 300, 20],
      ['G', 300, 30],
    ],
    wren: [['L', 300, 60]],
    guidingSigmaArcsec: 0.69,
    cloud: { afterHours: 1.9, minutes: 36 },
  },
  {
    target: ngc281,
    begin: '2026-10-20T18:50:00Z',
    hours: 4.6,
    heron: [['SII', 420, 60]],
    wren: [
      ['OIII', 420, 16],
      ['SII', 420, 60],
    ],
    guidingSigmaArcsec: 0.58,
  },
  {
    target: ic1396,
    begin: '2026-10-24T18:45:00Z',
    hours: 3.6,
    heron: [['SII', 420, 60]],
    wren: [['SII', 420, 60]],
    guidingSigmaArcsec: 0.61,
    starLost: [{ afterHours: 1.2, seconds: 14 }],
  },
  {
    target: m33,
    begin: '2026-11-06T18:40:00Z',
    hours: 5.4,
    heron: [
      ['R', 300, 22],
      ['G', 300, 16],
      ['B', 300, 40],
    ],
    wren: [
      ['L', 300, 36],
      ['Ha', 300, 40],
    ],
    guidingSigmaArcsec: 0.55,
    refocusAfter: [[40], [52]],
  },
  {
    target: ngc281,
    begin: '2026-11-14T18:30:00Z',
    hours: 5.6,
    heron: [
      ['SII', 420, 20],
      ['OIII', 420, 60],
    ],
    wren: [['SII', 420, 60]],
    guidingSigmaArcsec: 0.57,
    cloud: { afterHours: 4.1, minutes: 48 },
  },
  {
    target: ngc281,
    begin: '2026-11-22T18:25:00Z',
    hours: 4.4,
    heron: [['OIII', 420, 60]],
    wren: [
      ['Ha', 420, 24],
      ['OIII', 420, 60],
    ],
    guidingSigmaArcsec: 0.53,
    refocusAfter: [[], [19]],
  },
];

/** The scenario of one of the nights. */
export function autumnScenario(night: AutumnNight, index: number): Scenario {
  const beginMs = Date.parse(night.begin);
  const after = (hours: number): string => new Date(beginMs + hours * 3_600_000).toISOString();
  const plan = (steps: Plan) =>
    steps.map(([filter, seconds, count]) => ({ target: night.target.name, filter, seconds, count }));
  const [heronRefocus, wrenRefocus] = night.refocusAfter ?? [[], []];
  return {
    name: `autumn-${index + 1}`,
    seed: 20_260_900 + index,
    begin: after(0),
    end: after(night.hours),
    site: CIERZO_HILL,
    trains: [
      { ...HERON, plan: plan(night.heron), refocusAfter: heronRefocus },
      { ...WREN, plan: plan(night.wren), refocusAfter: wrenRefocus },
    ],
    targets: [night.target],
    ditherEvery: 2,
    starLost: (night.starLost ?? []).map(({ afterHours, seconds }) => ({ at: after(afterHours), seconds })),
    clouds: night.cloud
      ? [{ from: after(night.cloud.afterHours), to: after(night.cloud.afterHours + night.cloud.minutes / 60) }]
      : [],
    guidingEverySeconds: night.headersOnly ? 0 : 20,
    guidingSigmaArcsec: night.guidingSigmaArcsec,
  };
}
