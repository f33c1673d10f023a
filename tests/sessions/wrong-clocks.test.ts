import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readNights } from '../../src/pipeline.js';
import { toRecord, type NightRecord } from '../../src/record/index.js';
import { differences } from '../support/clock-differences.js';
import { clockNotices } from '../../src/report/html/view/clock-notices.js';
import { clockOf, type ClockNote } from '../../src/model/index.js';
import { seeded } from '../support/generator/random.js';
import { writeFiles } from '../support/generator/samples.js';
import { writeSession, type SessionFiles } from '../support/generator/write-session.js';
import { isTelling, randomNight } from '../support/random-night.js';
import { some } from '../support/runs.js';
import { TEST_NOW_MS } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { withFastComputer, type Written } from '../support/wrong-clocks.js';

/** More nights than the suite runs: CLOCK_NIGHTS=100 npx vitest run tests/sessions/wrong-clocks.test.ts. */
const NIGHTS = Number(process.env.CLOCK_NIGHTS ?? 1);
const FIRST = Number(process.env.CLOCK_FIRST ?? 1);
const OFF: readonly Written[] = ['both', 'headers', 'log'];
const ANY_HOUR_MS = 7_200_000;

cleanUp();

interface Read {
  readonly record: NightRecord;
  readonly clocks: readonly ClockNote[];
}

async function read(folder: string, files: SessionFiles): Promise<Read[]> {
  writeFiles(folder, files);
  const nights = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
  return nights.map((night) => ({ record: toRecord(night, 'test'), clocks: night.timeline.clocks }));
}

function offsetMs(seed: number): number {
  const random = seeded(seed * 17);
  if (seed % 2 === 1) return 37_400;
  return seed % 4 === 0 ? random.whole(-4, 4) * 1_800_000 : random.whole(-ANY_HOUR_MS, ANY_HOUR_MS);
}

async function run(trains: 2 | 3, logs: boolean, from: number) {
  const root = tempFolder();
  const tally = { right: 0, reported: 0, unreported: [] as string[] };
  const ids = ['heron', 'wren', 'owl'].slice(0, trains);
  for (let seed = from; seed < from + NIGHTS; seed++) {
    const night = { ...randomNight(seed, trains), guidingEverySeconds: logs ? 12 : 0 };
    const written = writeSession(night, { logs });
    if (!ids.slice(1).every((id) => isTelling(written.simulation, id))) continue;
    const train = ids[seeded(seed * 31 + trains).whole(0, trains - 1)] ?? 'wren';
    const off = logs ? (OFF[seed % 3] ?? 'both') : 'headers';
    const aheadMs = offsetMs(seed);
    const folder = join(root, String(seed));
    const [truth] = await read(join(folder, 'true'), written.files);
    const found = await read(join(folder, 'off'), withFastComputer(written.files, train, aheadMs, off));
    const [first] = found;
    if (!truth || !first) throw new Error('no night was read');
    const notices = clockNotices(first.clocks, clockOf('UTC')).join(' ');
    const isAbsolute = !notices.includes('it is not known which one is right');
    const wrong = found.length === 1 ? differences(first.record, truth.record, isAbsolute) : ['two nights'];
    if (wrong.length === 0) tally.right++;
    else if (/The clock is not known/.test(notices) || (!isAbsolute && wrong.every((w) => w.includes('twilight'))))
      tally.reported++;
    else
      tally.unreported.push(
        `night ${seed}, ${off} of ${train} ${aheadMs / 1000} s ahead: ${wrong.slice(0, 4).join('; ')} (${wrong.length}); ${JSON.stringify(first.clocks)}`,
      );
  }
  return tally;
}

describe('a report from a computer whose clock is wrong', () => {
  const kinds = [
    ['three trains', 3, true, FIRST + 1],
    ['two trains', 2, true, FIRST],
    ['two trains by headers alone', 2, false, FIRST],
    ['three trains by headers alone', 3, false, FIRST + 1],
  ] as const;

  it.each(some(kinds, process.env.CLOCK_NIGHTS ? kinds.length : 2))(
    'is the report without the offset, or its first screen says so: %s',
    async (what, trains, logs, from) => {
      const { right, reported, unreported } = await run(trains, logs, from);
      if (process.env.CLOCK_NIGHTS) console.log(what, { right, reported, unreported });
      expect(unreported).toEqual([]);
      expect(right + reported).toBeGreaterThan(0);
    },
    600_000,
  );
});
