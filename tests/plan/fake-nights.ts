/** Questions with a sky of straight rules, for tests of the plan. */
import { interval } from '../../src/model/index.js';
import type { NightToPlan, PlanQuestion, PlanTarget, PlanTrain } from '../../src/plan/index.js';

const HALF_HOUR = 1_800_000;

export const HERON: PlanTrain = {
  id: 'heron',
  apertureMm: null,
  pixelScaleArcsec: 1.6,
  keptShare: 1,
  betweenSubsMs: 5000,
  subSeconds: new Map([
    ['Ha', 420],
    ['OIII', 420],
    ['L', 300],
  ]),
  newFilters: new Map(),
  mayHaveOthers: true,
};
export const WREN: PlanTrain = { ...HERON, id: 'wren', pixelScaleArcsec: 1.3 };

export const target = (name: string, hours: Readonly<Record<string, number>>, more: Partial<PlanTarget> = {}) => ({
  name,
  priority: 1,
  daysLeft: null,
  lines: Object.entries(hours).map(([filter, h]) => ({ filter, train: null, hours: h, share: 1 })),
  ...more,
});

export interface FakeNight {
  /** Dark half hours. */
  readonly slots: number;
  /** Slots in which the Moon is up. */
  readonly moon?: readonly [number, number];
  /** Slots in which each target is up; all when absent. */
  readonly up?: readonly (readonly [number, number])[];
  /** The slot in which each target crosses the meridian. */
  readonly transits?: readonly number[];
  readonly date?: string;
}

/** Broadband is worth nothing under the Moon, narrow bands a third. */
export function fakeNight(count: number, { slots, moon = [0, 0], up, transits, date = '2026-12-01' }: FakeNight) {
  const duskMs = Date.parse(`${date}T18:00:00Z`);
  const within = (at: number, [from, to]: readonly [number, number]): boolean => at >= from && at < to;
  const night: NightToPlan = {
    date,
    moonIllumination: 0.6,
    slots: Array.from({ length: slots }, (_, at) => ({
      span: interval(duskMs + at * HALF_HOUR, duskMs + (at + 1) * HALF_HOUR),
      moonAltitudeDeg: within(at, moon) ? 30 : -10,
      targets: Array.from({ length: count }, (_none, i) => ({
        isUp: within(at, up?.[i] ?? [0, slots]),
        altitudeDeg: { begin: 60, end: 60 },
        moonSeparationDeg: 80,
        transitMs: transits?.[i] === at ? duskMs + (at + 0.5) * HALF_HOUR : null,
        worth: (filter: string) => (within(at, moon) ? (filter === 'L' ? 0 : 1 / 3) : 1),
        moonless: () => 1,
        bar: (filter: string) => (within(at, moon) && filter === 'L' ? ('moon' as const) : null),
      })),
    })),
  };
  return night;
}

export function question(
  targets: readonly PlanTarget[],
  nights: readonly FakeNight[],
  more: Partial<PlanQuestion> = {},
) {
  return {
    nights: nights.map((night) => fakeNight(targets.length, night)),
    trains: [HERON, WREN],
    targets,
    narrowband: new Set<string>(),
    ditherMs: 20_000,
    ...more,
  } satisfies PlanQuestion;
}
