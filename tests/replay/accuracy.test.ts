import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { isReplayed, type Night, type Replay } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { replayNight } from '../../src/replay/index.js';
import { replayInFull } from '../support/few-replays.js';
import type { PlannedExposures, Scenario } from '../support/generator/scenario.js';
import { writeFiles } from '../support/generator/samples.js';
import { type HERON, TWIN_NIGHT, WREN } from '../support/generator/scenarios.js';
import { writeSession } from '../support/generator/write-session.js';
import { namedNight } from '../support/nights.js';
import { nightOf } from '../support/nights/night-of.js';
import { NIGHTS } from '../support/nights/scenarios.js';
import { sampleNight, TEST_NOW_MS } from '../support/sample-night.js';
import { altered } from '../support/altered.js';
import { some } from '../support/runs.js';

// Its figures are what is asked here.
replayInFull();

/** What the replay of a night's own rules may be off by, as a share of what was really kept. */
const TOLERANCE = 0.02;

const folder = mkdtempSync(join(tmpdir(), 'nightledger-replay-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function simulated(name: string, scenario: Scenario): Promise<Night> {
  const root = join(folder, name);
  writeFiles(root, writeSession(scenario).files);
  const [night] = await readNights(root, { nowMs: TEST_NOW_MS });
  if (!night) throw new Error(`${name} holds no night`);
  return night;
}

/** A night’s replay: the one that stands in it, where it was made with the night. */
function replayed(night: Night): Replay {
  const result = isReplayed(night.replay) ? night.replay : replayNight(night);
  if (!isReplayed(result)) throw new Error(`not replayed: ${result.missing}`);
  return result;
}

function expectAccurate({ errorShare, errorShares, exact, actualKeptMs }: Replay): void {
  expect(Math.abs(errorShare ?? NaN)).toBeLessThanOrEqual(TOLERANCE);
  for (const share of Object.values(errorShares)) expect(Math.abs(share ?? NaN)).toBeLessThanOrEqual(TOLERANCE);
  // The shares are what they claim to be.
  for (const [id, actual] of Object.entries(actualKeptMs))
    expect(errorShares[id]).toBeCloseTo(((exact.trains[id]?.keptMs ?? NaN) - actual) / actual, 12);
}

describe('the replay of a sample night’s own rules keeps what the night kept', () => {
  it.each(['twin-night', 'headers-only', 'mixed-dialects'])('%s, within two per cent', async (name) => {
    const night = await sampleNight(name);
    const replay = replayed(night);
    expectAccurate(replay);
    expect(replay.exact.dithers).toBeGreaterThanOrEqual(0.9 * night.accounts.dithers.length);
  });

  const invented = [
    'twin-night',
    'one-train',
    'three-trains',
    'two-hours',
    'fourteen-hours',
    'no-site',
    'no-guiding',
    'long-names',
    'headers-only',
  ];
  it.each(some(invented, 3))('the invented night %s, within two per cent', (name) => {
    expectAccurate(replayed(namedNight(name)));
  });
});

/**
 * Subs of 240 s on wren leave 62 s to heron's third frame, where wren's patience is 60 s: a second of readout or of a
 * filter change decides whether heron waits three minutes for one more exposure. A count and a patience cannot retrace
 * each of these decisions; the replay is off by more than usual, and says so.
 */
describe('the replay of a night whose every cycle is decided by a second', () => {
  const shortened = (plan: readonly PlannedExposures[]) =>
    plan.map((one) => (one.seconds === 285 ? { ...one, seconds: 240 } : one));
  function closeCall(name: string): Night {
    const named = NIGHTS[name];
    if (!named) throw new RangeError(`no invented night is called ${name}`);
    const { trains, turns = [] } = named.scenario;
    const scenario: Scenario = {
      ...named.scenario,
      trains: trains.map((train) => ({ ...train, plan: shortened(train.plan) })),
      turns: turns.map((turn) => ({
        ...turn,
        plans: Object.fromEntries(Object.entries(turn.plans).map(([id, plan]) => [id, shortened(plan)])),
      })),
    };
    return nightOf({ ...named, scenario });
  }

  it.each(some(['two-hours', 'twin-night', 'three-trains', 'fourteen-hours', 'headers-only'], 1))(
    '%s, within three per cent, and reports more than two',
    (name) => {
      const { errorShares, doubts, confidence } = replayed(closeCall(name));
      const worst = Math.max(...Object.values(errorShares).map((share) => Math.abs(share ?? NaN)));
      expect(worst).toBeLessThanOrEqual(0.03);
      expect(doubts.some((doubt) => doubt.includes('is off by'))).toBe(worst > TOLERANCE);
      if (worst > TOLERANCE) expect(confidence).not.toBe('high');
    },
  );
});

describe('the replay of simulated nights with other habits keeps what the night kept', () => {
  const [heron, wren] = TWIN_NIGHT.trains as [typeof HERON, typeof WREN];
  const trains = (exposures: readonly number[], wrenMore: Partial<typeof WREN> = {}): Scenario['trains'] => [
    { ...heron, plan: heron.plan.map((p) => ({ ...p, seconds: exposures[0] ?? 300 })) },
    { ...wren, plan: wren.plan.map((p) => ({ ...p, seconds: exposures[1] ?? 240 })), ...wrenMore },
  ];
  const third: Scenario['trains'][number] = {
    ...WREN,
    id: 'stilt',
    focalLengthMm: 135,
    apertureMm: 67,
    readoutMs: 1500,
    startOffsetMin: 4,
    patienceMs: 20_000,
    plan: [{ target: 'NGC 281', filter: 'L', seconds: 90, count: 400 }],
  };
  const cases: Record<string, Scenario> = {
    'long subs, patient': {
      ...TWIN_NIGHT,
      seed: 12,
      ditherEvery: 2,
      trains: trains([600, 480], { patienceMs: 120_000 }),
    },
    'dithered at every frame': { ...TWIN_NIGHT, seed: 13, ditherEvery: 1 },
    'short subs, impatient': { ...TWIN_NIGHT, seed: 11, ditherEvery: 5, trains: trains([120, 75], { patienceMs: 0 }) },
    'a late companion': { ...TWIN_NIGHT, seed: 14, trains: trains([300, 240], { startOffsetMin: 41 }) },
    'three trains': { ...TWIN_NIGHT, seed: 15, trains: [...trains([300, 240]), third] },
    'one train': { ...TWIN_NIGHT, seed: 16, trains: trains([300]).slice(0, 1) },
  };
  it.each(some(Object.entries(cases), 2))('%s', async (name, scenario) => {
    expectAccurate(replayed(await simulated(name.replaceAll(/\W+/g, '-'), scenario)));
  });
});

describe('what the replay says of its own worth', () => {
  it('is high confidence where a log was read and the error is small', async () => {
    expect(replayed(await sampleNight('twin-night'))).toMatchObject({ confidence: 'high', doubts: [] });
  });

  it('is less with headers alone, and says why', async () => {
    const { confidence, doubts } = replayed(await sampleNight('headers-only'));
    expect(confidence).not.toBe('high');
    expect(doubts.join()).toContain('inferred from the gaps');
  });

  it('is low where nothing was kept to check it against', () => {
    const replay = replayed(namedNight('none-kept'));
    expect(replay.errorShare).toBeNull();
    expect(replay.confidence).toBe('low');
  });

  it('falls when the replay is off, with the error in words', async () => {
    const night = await sampleNight('twin-night');
    // As if a third of what was kept had been lost for a reason the replay cannot know.
    const totals = night.accounts.totals.map((t) => ({ ...t, ms: { ...t.ms, kept: t.ms.kept * 0.66 } }));
    const replay = replayed({ ...altered(night, { accounts: { totals } }), replay: null });
    expect(replay.confidence).toBe('low');
    expect(replay.doubts.join()).toMatch(/off by \d+\.\d %/);
  });

  it('is that there is nothing to replay where nothing was taken', () => {
    expect(replayNight(namedNight('no-frames'))).toEqual({ missing: 'a train with at least two lights' });
  });
});
