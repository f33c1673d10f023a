import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DateTime } from 'luxon';
import { afterAll, describe, expect, it } from 'vitest';
import { loadDialect, readDialectLog } from '../../../src/gather/dialects/index.js';
import { draftFor } from '../../../src/log-doctor.js';
import type { LogEvent } from '../../../src/model/index.js';
import { inFull } from '../../support/runs.js';
import { score } from './support/score.js';

const SESSION = join(import.meta.dirname, '../../../sample-sessions/twin-night');
const ZONE = 'Europe/Madrid';

/** Words of no language, and no seconds: nothing but the frames tells what these lines are. */
const WORDS: Readonly<Record<string, string>> = {
  'exposure-begin': 'zof',
  'exposure-end': 'rin',
  'exposure-abort': 'kra',
  'frame-saved': 'plo',
  'dither-ready': 'umbel',
  'dither-begin': 'tavi',
  'dither-end': 'tavo',
  'settling-begin': 'murr',
  'settling-end': 'morr',
};

interface Row {
  readonly at: string;
  readonly event: string;
  readonly file?: string;
}

const rows = readFileSync(join(SESSION, 'logs/heron.jsonl'), 'utf8')
  .split('\n')
  .filter((line) => line !== '')
  .map((line) => JSON.parse(line) as Row)
  .filter(({ event }) => event in WORDS)
  .slice(0, inFull(Infinity, 250));

const folder = mkdtempSync(join(tmpdir(), 'session-frames-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** How many of the log's events an untouched draft finds, and how many it invents. */
async function scoreDraft(session?: string): Promise<{ found: number; invented: number }> {
  const lines = rows.map(({ at, event, file }, i) => {
    const stamp = DateTime.fromISO(at, { zone: ZONE }).toFormat('yyyy-MM-dd HH:mm:ss.SSS');
    return `${stamp} ${WORDS[event] ?? ''} ${file?.split('/').pop() ?? `n${i % 7}`}\n`;
  });
  writeFileSync(join(folder, 'night.log'), lines.join(''));
  const { yaml } = await draftFor(join(folder, 'night.log'), {
    zone: ZONE,
    nowMs: Date.parse('2026-11-01T12:00:00Z'),
    ...(session === undefined ? {} : { session }),
  });
  const { dialect } = loadDialect('draft.yaml', yaml ?? '');
  if (dialect === null) throw new Error(`the draft does not load:\n${yaml ?? ''}`);
  const read = await readDialectLog(folder, 'night.log', dialect, { zone: ZONE, sessionDate: '2026-10-14' });
  const truth = rows.map(({ at, event }) => ({ atMs: Date.parse(at), event }) as LogEvent);
  const { matched, invented } = score(truth, read.events, 1000);
  return { found: matched / truth.length, invented: invented.length / truth.length };
}

describe('a log of twin-night in words that nobody knows', () => {
  it('is understood with the frames of its session, and hardly without', async () => {
    const alone = await scoreDraft();
    const beside = await scoreDraft(SESSION);
    expect(beside.found).toBeGreaterThan(alone.found + 0.3);
    expect(beside.found).toBeGreaterThanOrEqual(0.9);
    expect(beside.invented).toBeLessThanOrEqual(0.02);
  });
});
