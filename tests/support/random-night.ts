/**
 * Random nights for properties of the whole journey: any exposure lengths, cadences, lengths of night, misfortunes;
 * and wrong clocks on them.
 */
import { lineTimesOf, type TellingEvent, type Timeline } from '../../src/model/index.js';
import { inferRig } from '../../src/gather/infer-rig.js';
import { onOneClock, sessionOf } from '../../src/gather/index.js';
import { compareClocks, reconstruct } from '../../src/reconstruct/index.js';
import { seeded } from './generator/random.js';
import type { Scenario } from './generator/scenario.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from './generator/scenarios.js';
import { simulate } from './generator/simulate.js';
import type { Simulation } from './generator/simulation.js';
import { framePath } from './generator/truth.js';

const BEGIN_MS = Date.parse('2026-10-14T19:00:00.000Z');

/** A night of two trains, or three. */
export function randomNight(seed: number, trains: 2 | 3 = 2): Scenario {
  const random = seeded(seed);
  const lengths = [30, 60, 120, 180, 240, 300, 600];
  const pick = (): number => lengths[random.whole(0, lengths.length - 1)] ?? 120;
  const plan = (seconds: number) =>
    ['Ha', 'OIII'].map((filter) => ({ target: 'NGC 281', filter, seconds, count: random.whole(5, 15) }));
  const all = [
    { ...HERON, plan: plan(pick()), refocusAfter: [random.whole(4, 20)] },
    { ...WREN, plan: plan(pick()), refocusAfter: [random.whole(4, 20)], patienceMs: random.whole(0, 60_000) },
    { ...WREN, id: 'owl', telescope: 'owl', plan: plan(pick()), startOffsetMin: random.whole(1, 9) },
  ];
  return {
    name: `random-${seed}`,
    seed,
    begin: new Date(BEGIN_MS).toISOString(),
    end: new Date(BEGIN_MS + random.whole(60, 480) * 60_000).toISOString(),
    site: CIERZO_HILL,
    trains: all.slice(0, trains),
    targets: [TARGETS.ngc281],
    ditherEvery: random.whole(1, 6),
    starLost: [],
    clouds: seed % 3 === 0 ? [{ from: '2026-10-14T20:10:00.000Z', to: '2026-10-14T20:25:00.000Z' }] : [],
    guidingEverySeconds: 0,
    guidingSigmaArcsec: 0.6,
  };
}

/** How far clocks are ahead, ms, by `TRAIN/headers` and `TRAIN/log`: all night, or at an instant of it. */
export type WrongClocks = Readonly<Record<string, number | ((atMs: number) => number)>>;

function aheadAt(clocks: WrongClocks, clock: string, atMs: number): number {
  const ahead = clocks[clock] ?? 0;
  return typeof ahead === 'number' ? ahead : ahead(atMs);
}

/** Whether the night holds enough evidence for its clocks. */
export function isTelling({ cycles, frames }: Simulation, train: string): boolean {
  return cycles.length >= 4 && frames.filter((f) => f.train === train).length >= 12;
}

/** Simulates a night and rebuilds it from what wrong clocks wrote. */
export function rebuild(simulation: Simulation, trains: readonly string[], clocks: WrongClocks, logs = true): Timeline {
  const events = simulation.events.map(
    ({ atMs, train, event, ...fields }, i): TellingEvent =>
      ({
        ...fields,
        atMs: atMs + aheadAt(clocks, `${train}/log`, atMs),
        train,
        event,
        source: { file: `${train}.jsonl`, line: i },
      }) as TellingEvent,
  );
  const headers = simulation.frames
    .filter((f) => !f.aborted)
    .map((f) => {
      const ahead = aheadAt(clocks, `${f.train}/headers`, f.beginMs);
      return {
        train: f.train,
        file: framePath(f),
        sizeBytes: 5760,
        headerHash: framePath(f),
        kind: 'light' as const,
        target: f.target,
        filter: f.filter,
        exposure: { startMs: f.beginMs + ahead, endMs: f.endMs + ahead },
        exposureSeconds: (f.endMs - f.beginMs) / 1000,
      };
    });
  const rig = { ...inferRig([]), trains: trains.map((id) => ({ ...CONFIG, id })) };
  const written = sessionOf(
    rig,
    { frames: headers, inputs: [], warnings: [] },
    { ...NOTHING, events: logs ? events : [], lineTimes: logs ? lineTimesOf(events) : [] },
  );
  const session = onOneClock(
    written,
    trains[0] ?? '',
    compareClocks({ trains, headers, events: written.events, lineTimes: written.lineTimes, byHandMs: new Map() }),
  );
  return reconstruct({
    night: { startMs: BEGIN_MS - 8 * 3_600_000, endMs: BEGIN_MS + 16 * 3_600_000 },
    trains,
    headers: session.frames,
    library: [],
    events: session.events,
    lineTimes: session.lineTimes,
    targets: [],
    filterAliases: {},
    clocks: session.clocks ?? [],
  });
}

const NOTHING = { guiding: null, inputs: [], warnings: [] };
const CONFIG = {
  role: 'companion' as const,
  filterWidthsNm: {},
  filterWavelengthsNm: {},
  frames: [],
  match: {},
  logs: [],
};

const known = new Map<string, Simulation>();

/** A random night as it went; each is simulated once for all tests. */
export function simulated(seed: number, trains: 2 | 3 = 2): Simulation {
  const key = `${seed} ${trains}`;
  const simulation = known.get(key) ?? simulate(randomNight(seed, trains));
  known.set(key, simulation);
  return simulation;
}
