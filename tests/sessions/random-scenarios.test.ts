import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readNights } from '../../src/pipeline.js';
import { toRecord } from '../../src/record/index.js';
import { writeFiles } from '../support/generator/samples.js';
import type { Scenario } from '../support/generator/scenario.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from '../support/generator/scenarios.js';
import { writeSession } from '../support/generator/write-session.js';
import { seeded } from '../support/generator/random.js';
import { some } from '../support/runs.js';
import { TEST_NOW_MS } from '../support/sample-night.js';
import { expectTruth } from './truth-check.js';

const folder = mkdtempSync(join(tmpdir(), 'nightledger-scenarios-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Invented nights that differ in exposure lengths, cadences, trains and misfortunes. */
function scenario(seed: number): Scenario {
  const random = seeded(seed);
  const lengths = [60, 120, 180, 240, 300] as const;
  const pick = () => lengths[random.whole(0, lengths.length - 1)]!;
  const plan = (seconds: number) => [
    { target: 'NGC 281', filter: 'Ha', seconds, count: random.whole(5, 15) },
    { target: 'NGC 281', filter: 'OIII', seconds, count: random.whole(5, 15) },
  ];
  const owl = {
    ...WREN,
    id: 'owl',
    telescope: 'owl',
    focalLengthMm: 250,
    startOffsetMin: 3,
    patienceMs: 0,
    plan: plan(pick()),
  };
  return {
    name: `random-${seed}`,
    seed,
    begin: '2026-10-14T19:00:00.000Z',
    end: '2026-10-15T01:00:00.000Z',
    site: CIERZO_HILL,
    trains: [
      { ...HERON, plan: plan(pick()), refocusAfter: [random.whole(4, 20)] },
      { ...WREN, plan: plan(pick()), refocusAfter: [random.whole(4, 20)] },
      ...(seed % 3 === 0 ? [owl] : []),
    ].slice(0, seed % 5 === 0 ? 1 : 3),
    targets: [TARGETS.ngc281],
    ditherEvery: random.whole(1, 6),
    starLost: [],
    clouds: seed % 2 === 0 ? [{ from: '2026-10-14T22:10:00.000Z', to: '2026-10-14T22:25:00.000Z' }] : [],
    flipAt: seed % 4 === 0 ? '2026-10-14T23:20:00.000Z' : undefined,
    guidingEverySeconds: 0,
    guidingSigmaArcsec: 0.6,
  };
}

describe('simulated nights of any make', () => {
  const reported = async (seed: number) => {
    const written = writeSession(scenario(seed));
    const path = join(folder, String(seed));
    writeFiles(path, written.files);
    const nights = await readNights(path, { nowMs: TEST_NOW_MS, replay: null });
    expect(nights).toHaveLength(1);
    return { record: toRecord(nights[0]!, 'test'), truth: written.truth };
  };

  it.each(some([1, 2, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13], 3))('seed %i is reported as it truly was', async (seed) => {
    const { record, truth } = await reported(seed);
    expectTruth(record, truth);
  });

  // The simulated companion begins its first sub before the mount has settled, and the simulator's books do not say so.
  it('seed 3: a first sub that begins while the mount settles is not simply kept', async () => {
    const { record } = await reported(3);
    const first = record.frames.find((frame) => frame.train === 'wren');
    expect(first?.causes.map(({ kind }) => kind)).toContain('mount-motion');
    expect(first?.verdict).toBe('doubtful');
  });
});
