/** The sessions of two computers, each read by itself, merged: what the companion's log says of its readiness stays. */
import { describe, expect, it } from 'vitest';
import { mergeSessions } from '../../src/merge-sessions.js';
import { readNights } from '../../src/pipeline.js';
import { forArchive, readRecord, type SessionRecord } from '../../src/record/index.js';
import { writeFiles } from '../support/generator/samples.js';
import { HERON, WREN } from '../support/generator/scenarios.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession, type SessionFiles } from '../support/generator/write-session.js';
import { TEST_NOW_MS } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

/** Wren's program is ready so long after its frame is read out: only its log can tell. */
const BUSY_MS = 3000;
/** Its subs are shorter, so that it waits for heron. */
const planOf = (seconds: number) => [{ target: 'NGC 281', filter: 'Ha', seconds, count: 60 }];
const written = writeSession(
  shortNight({
    name: 'two-computers',
    begin: '2026-10-14T19:00:00.000Z',
    end: '2026-10-14T21:30:00.000Z',
    trains: [
      { ...HERON, plan: planOf(180) },
      { ...WREN, plan: planOf(150), patienceMs: 120_000 },
    ],
  }),
);
const files: SessionFiles = new Map([
  ...written.files,
  [
    'logs/wren.jsonl',
    String(written.files.get('logs/wren.jsonl')).replaceAll(
      /"at":"([^"]*)"(?=[^\n]*"dither-ready")/g,
      (_, at: string) => `"at":"${new Date(Date.parse(at) + BUSY_MS).toISOString()}"`,
    ),
  ],
]);

/** What one computer holds: its train's frames and log, under the one rig file. */
async function sessionOf(...trains: readonly string[]): Promise<SessionRecord> {
  const isOwn = (path: string): boolean => path === 'rig.yaml' || trains.some((train) => path.includes(`/${train}`));
  const own: SessionFiles = new Map([...files].filter(([path]) => isOwn(path)));
  const folder = tempFolder();
  writeFiles(folder, own);
  const [night] = await readNights(folder, { nowMs: TEST_NOW_MS });
  if (!night) throw new Error('no night was read');
  const record = forArchive(night, { session: trains.join('-'), report: null }, 'test');
  const reading = readRecord(JSON.stringify(record));
  if (!reading.ok) throw new Error(reading.why);
  return reading.record;
}

describe('a companion’s session that was read alone', () => {
  it('keeps its waits for dithers when the pilot’s is merged with it, in either order', async () => {
    const [pilot, companion, whole] = await Promise.all([
      sessionOf('heron'),
      sessionOf('wren'),
      sessionOf('heron', 'wren'),
    ]);
    expect(whole.dithers.length).toBeGreaterThan(5);
    const shorter = whole.dithers.filter(
      ({ waits }, i) => Math.abs((written.truth.dithers[i]?.waits.wren ?? NaN) - (waits.wren ?? NaN) - 3) < 0.001,
    );
    expect(shorter.length).toBeGreaterThan(3);
    for (const sessions of [
      [pilot, companion],
      [companion, pilot],
    ]) {
      const merged = await mergeSessions(sessions);
      expect(merged.dithers).toEqual(whole.dithers);
      expect(merged.ledger).toEqual(whole.ledger);
    }
  });
});
