/**
 * Guiding that is poor on one axis or low in the sky, hours that nobody logged, and stacks of unlike frames: nights with
 * the fault beside the same nights with the advice followed, and their costs from the simulator's own books.
 */
import { describe, expect, it } from 'vitest';
import { durationMs, sum, type Night } from '../../../src/model/index.js';
import { MOON_RISES } from '../../support/generator/moonlit.js';
import { seeded } from '../../support/generator/random.js';
import type { Scenario, ScenarioTrain } from '../../support/generator/scenario.js';
import { TARGETS } from '../../support/generator/scenarios.js';
import { simulate } from '../../support/generator/simulate.js';
import type { SimulatedFrame, Simulation } from '../../support/generator/simulation.js';
import { framePath } from '../../support/generator/truth.js';
import { trueVerdict } from '../../support/generator/true-verdict.js';
import { some } from '../../support/runs.js';
import { draftAlone, draftOf, expectHeld, gainMs, MINUTE, reported, scenarioOf } from './support.js';
import { altitudeDeg } from './true-sky.js';

const SEEDS = some([1, 2, 11, 5], 1);
/** Arcseconds in a radian over micrometres in a millimetre, and the pixels of the sample's cameras. */
const scaleOf = ({ focalLengthMm }: ScenarioTrain): number => (206.265 * 3.76) / focalLengthMm;

/** The spread of the guiding during an exposure, both axes together, arcseconds. */
function spread({ samples }: Simulation, { beginMs, endMs }: SimulatedFrame): number {
  const own = samples.filter(({ atMs }) => atMs >= beginMs && atMs < endMs);
  const variance = (of: (s: (typeof own)[number]) => number): number => {
    const mean = sum(own.map(of)) / own.length;
    return sum(own.map((s) => (of(s) - mean) ** 2)) / own.length;
  };
  return Math.sqrt(variance((s) => s.ra) + variance((s) => s.dec));
}

/** Exposures during which the guiding spread over more than a pixel of their train, and those it did not. */
function byGuiding(s: Scenario): { readonly rough: SimulatedFrame[]; readonly keptMs: number } {
  const simulation = simulate(s);
  const limits = new Map(s.trains.map((train) => [train.id, scaleOf(train)]));
  const isRough = (f: SimulatedFrame): boolean => spread(simulation, f) > (limits.get(f.train) ?? NaN);
  const kept = simulation.frames.filter(
    (f) => !isRough(f) && trueVerdict(f, simulation, 'not-seen').verdict === 'kept',
  );
  return { rough: simulation.frames.filter(isRough), keptMs: sum(kept.map((f) => f.endMs - f.beginMs)) };
}

describe.each(['ra', 'dec'] as const)('guiding that is poor in %s', (axis) => {
  it.each(SEEDS)('wins what an axis as steady as the other keeps: random night %i', async (seed) => {
    const calm = { ...scenarioOf(seed), guidingEverySeconds: 6 };
    const factor = 3 + seeded(seed).next();
    const before: Scenario = {
      ...calm,
      name: `axis-${axis}-${seed}`,
      roughness: () => ({ ra: 1, dec: 1, [axis]: factor }),
    };
    const draft = await draftAlone(before, 'guiding-axis', /^Guiding was rough in /);
    const { rough, keptMs } = byGuiding(before);
    expect(rough.length).toBeGreaterThan(10);
    expectHeld(draft?.costMs ?? NaN, sum(rough.map((f) => f.endMs - f.beginMs)), `cost of: ${draft?.title}`);
    expectHeld(draft?.winMs ?? NaN, byGuiding(calm).keptMs - keptMs, `win of: ${draft?.title}`);
  });
});

describe('guiding that grows rough low in the sky', () => {
  it.each(SEEDS)('costs the exposures that it spoilt there: random night %i', async (seed) => {
    const random = seeded(seed);
    const late = { ...scenarioOf(seed), end: '2026-10-15T05:00:00.000Z', guidingEverySeconds: 6 };
    const calm = {
      ...late,
      targets: [TARGETS.ic1396],
      trains: late.trains.map((t) => ({ ...t, plan: t.plan.map((p) => ({ ...p, target: TARGETS.ic1396.name })) })),
    };
    const [knee, steep] = [32 + 2 * random.next(), 0.35 + 0.1 * random.next()];
    const before: Scenario = {
      ...calm,
      name: `low-guiding-${seed}`,
      roughness: (atMs) => {
        const times = 1 + steep * Math.max(0, knee - altitudeDeg(calm, TARGETS.ic1396.name, atMs));
        return { ra: times, dec: times };
      },
    };
    const draft = await draftAlone(before, 'guiding-altitude', /times as rough below 35°$/);
    const low = byGuiding(before).rough.filter((f) => altitudeDeg(before, f.target, (f.beginMs + f.endMs) / 2) < 35);
    expect(low.length).toBeGreaterThan(2);
    expectHeld(draft?.costMs ?? NaN, sum(low.map((f) => f.endMs - f.beginMs)), `cost of: ${draft?.title}`);
  });
});

describe.each(some(['wren', 'heron'], 1))('hours in which %s did nothing, and its log says nothing', (id) => {
  it.each(SEEDS)('are won back by exposing on: random night %i', async (seed) => {
    const random = seeded(seed);
    const calm = { ...scenarioOf(seed), name: `idle-${id}-${seed}` };
    const idles = [1, 3, 5].map((hour) => ({
      train: id,
      at: new Date(Date.parse(calm.begin) + (hour + random.next()) * 60 * MINUTE).toISOString(),
      minutes: random.whole(8, 25),
    }));
    const before: Scenario = { ...calm, idles };
    const draft = draftOf(await reported(before), 'unexplained-time', new RegExp(`^${id} was idle`));
    // The other train stood ready for a dither meanwhile.
    const { frames, cycles } = simulate(before);
    const own = frames.filter((f) => f.train === id);
    const waitedMs = sum(
      own.slice(1).flatMap(({ beginMs: toMs }, i) => {
        const fromMs = own[i]?.endMs ?? toMs;
        if (toMs - fromMs < 5 * MINUTE) return [];
        return cycles.flatMap(({ beginMs, readyMs }) =>
          Object.entries(readyMs).map(([train, ms]) =>
            train === id ? 0 : Math.max(0, Math.min(beginMs, toMs) - Math.max(ms, fromMs)),
          ),
        );
      }),
    );
    const idleMs = MINUTE * sum(idles.map(({ minutes }) => minutes));
    expectHeld(draft?.costMs ?? NaN, idleMs + waitedMs, `cost of: ${draft?.title}`);
    expectHeld(draft?.winMs ?? NaN, gainMs(before, calm), `win of: ${draft?.title}`);
  });
});

describe('a stack of frames before and after moonrise', () => {
  const TRIALS = 4000;

  it.each(SEEDS)('wins by weights what drawn frames win: random night %i', async (seed) => {
    const random = seeded(seed);
    const before: Scenario = {
      ...MOON_RISES,
      seed,
      name: `marginal-${seed}`,
      trains: MOON_RISES.trains.map((t) => ({
        ...t,
        plan: [{ target: 'NGC 281', filter: 'L', seconds: random.whole(120, 240), count: 999 }],
      })),
    };
    const night = await reported(before);
    const draft = draftOf(night, 'marginal-frames', /^A plain mean of heron/);
    // Frames drawn as one star each, of the noise that the model gives them: what a stack is worth is what it spreads.
    const frames = night.accounts.lights
      .filter((f) => f.train === 'heron' && f.verdict === 'kept')
      .map((f) => ({ ms: durationMs(f.exposure), share: night.worth?.frames[f.id]?.share ?? NaN }))
      .map(({ ms, share }) => ({ weight: ms * share, sigma: 1 / Math.sqrt(ms * share) }));
    const stacked = (weightOf: (frame: (typeof frames)[number]) => number): number => {
      const total = sum(frames.map(weightOf));
      let squares = 0;
      for (let i = 0; i < TRIALS; i++)
        squares += (sum(frames.map((f) => weightOf(f) * random.normal(0, f.sigma))) / total) ** 2;
      return TRIALS / squares;
    };
    const trueMs = stacked((f) => f.weight) - stacked(() => 1);
    expectHeld(draft?.winMs ?? NaN, trueMs, `win of: ${draft?.title}`);
    expectHeld(draft?.costMs ?? NaN, trueMs, `cost of: ${draft?.title}`);
  });
});

describe('files that are gone from the disk', () => {
  it.each(SEEDS)(
    'cost the exposures that the log says were saved, and win them when they are found: random night %i',
    async (seed) => {
      const late = scenarioOf(seed);
      const short = {
        ...late,
        name: `missing-${seed}`,
        end: new Date(Date.parse(late.begin) + 10_800_000).toISOString(),
      };
      const isGone = (f: SimulatedFrame): boolean => f.train === 'wren' && f.number % (3 + (seed % 4)) === 0;
      const { frames } = simulate(short);
      const gone = frames.filter((f) => isGone(f) && !f.aborted);
      const paths = new Set(gone.map(framePath));
      const night = await reported(short, { isThere: (path) => !paths.has(path) });
      const draft = draftOf(night, 'missing-files', /of wren/);
      expect(gone.length).toBeGreaterThan(3);
      expect(draft).toMatchObject({ frames: gone.length, costMs: sum(gone.map((f) => f.endMs - f.beginMs)) });
      // Put back, they can be stacked.
      const keptMs = ({ accounts }: Night): number =>
        sum(
          accounts.lights.flatMap((f) =>
            f.verdict === 'kept' && f.provenance !== 'log-only' ? [durationMs(f.exposure)] : [],
          ),
        );
      const whole = await reported({ ...short, name: `whole-${seed}` });
      expectHeld(draft?.winMs ?? NaN, keptMs(whole) - keptMs(night), `win of: ${draft?.title}`);
    },
  );
});
