/** The night on which clocks are put back, logs in local time, and a companion's computer ahead in headers and log. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { clockOf } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { toRecord, type NightRecord } from '../../src/record/index.js';
import { clockNotices } from '../../src/report/html/view/clock-notices.js';
import { differences } from '../support/clock-differences.js';
import { seeded } from '../support/generator/random.js';
import { writeFiles } from '../support/generator/samples.js';
import { HERON, WREN } from '../support/generator/scenarios.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession } from '../support/generator/write-session.js';
import { TEST_NOW_MS } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

/** More nights than the suite runs: CLOCK_NIGHTS=12 npx vitest run tests/sessions/changed-clocks.test.ts. */
const NIGHTS = Number(process.env.CLOCK_NIGHTS ?? 1);
const FIRST = Number(process.env.CLOCK_FIRST ?? 1);

cleanUp();

/** The European Union puts its clocks back at 01:00 UTC on 2026-10-25 (Directive 2000/84/EC). */
function night(seed: number) {
  const random = seeded(seed * 13);
  const lengths = [60, 120, 180, 240, 300];
  return shortNight({
    name: `change-${seed}`,
    seed,
    begin: '2026-10-24T22:00:00.000Z',
    end: new Date(Date.parse('2026-10-25T01:30:00.000Z') + random.whole(0, 120) * 60_000).toISOString(),
    ditherEvery: random.whole(2, 4),
    trains: [HERON, WREN].map((train) => ({
      ...train,
      plan: [{ target: 'NGC 281', filter: 'Ha', seconds: lengths[random.whole(0, 4)] ?? 180, count: 300 }],
    })),
  });
}

/** Whole and half hours as often as anything else within two hours. */
function offsetMs(seed: number): number {
  const random = seeded(seed * 29);
  return seed % 2 === 0 ? random.whole(-4, 4) * 1_800_000 : random.whole(-7_200_000, 7_200_000);
}

async function read(seed: number, companionAheadMs: number): Promise<{ record: NightRecord; notices: string }> {
  const folder = join(tempFolder(), 'session');
  writeFiles(folder, writeSession(night(seed), { dialects: { companionAheadMs } }).files);
  const [found, ...others] = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
  if (!found || others.length > 0) throw new Error(`${others.length + (found ? 1 : 0)} nights were read`);
  return {
    record: toRecord(found, 'test'),
    notices: clockNotices(found.timeline.clocks, clockOf('UTC')).join(' '),
  };
}

it.each(Array.from({ length: NIGHTS }, (_, i) => FIRST + i))(
  'night %i is reported as without the offset, or its first screen says that the clock is not known',
  async (seed) => {
    const truth = await read(seed, 0);
    const { record, notices } = await read(seed, offsetMs(seed));
    const isAbsolute = !notices.includes('it is not known which one is right');
    const wrong = differences(record, truth.record, isAbsolute);
    const isReported =
      /The clock is not known/.test(notices) || (!isAbsolute && wrong.every((w) => w.includes('twilight')));
    expect(isReported ? [] : wrong, `${offsetMs(seed) / 1000} s ahead`).toEqual([]);
  },
);
