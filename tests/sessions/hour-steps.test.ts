/** A computer whose clock is set by an hour in the night: the report is the report of the same night without that. */
import { describe, expect, it } from 'vitest';
import { clockOf, type Night } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { toRecord } from '../../src/record/index.js';
import { clockNotices } from '../../src/report/html/view/clock-notices.js';
import { differences } from '../support/clock-differences.js';
import { writeFiles } from '../support/generator/samples.js';
import { writeSession, type SessionFiles } from '../support/generator/write-session.js';
import { randomNight } from '../support/random-night.js';
import { some } from '../support/runs.js';
import { TEST_NOW_MS } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { withFastComputer, type Written } from '../support/wrong-clocks.js';

const HOUR_MS = 3_600_000;

cleanUp();

async function read(files: SessionFiles): Promise<Night> {
  const folder = tempFolder();
  writeFiles(folder, files);
  const [night, ...more] = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
  if (!night || more.length > 0) throw new Error('not one night');
  return night;
}

/** The session, and the moment in it when the clock is set. */
function night(seed: number, share: number) {
  const scenario = { ...randomNight(seed, 2), guidingEverySeconds: 0 };
  const [from, to] = [Date.parse(scenario.begin), Date.parse(scenario.end)];
  return { files: writeSession(scenario).files, setMs: from + share * (to - from) };
}

describe('a clock that is set by an hour in the night', () => {
  const cases: readonly [number, string, Written, number, number][] = [
    [1, 'wren', 'log', -HOUR_MS, 0.5],
    [1, 'wren', 'both', HOUR_MS, 0.5],
    [1, 'wren', 'both', -HOUR_MS, 0.4],
    [1, 'heron', 'log', HOUR_MS, 0.6],
    [1, 'heron', 'both', HOUR_MS, 0.5],
    [1, 'heron', 'both', -HOUR_MS, 0.5],
    [1, 'wren', 'headers', -HOUR_MS, 0.5],
    [1, 'heron', 'headers', HOUR_MS, 0.5],
  ];
  it.each(some(cases, 3))('is corrected: night %i, %s, %s by %i ms', async (seed, train, written, byMs, share) => {
    const { files, setMs } = night(seed, share);
    const truth = toRecord(await read(files), 'test');
    const found = await read(withFastComputer(files, train, (atMs) => (atMs < setMs ? 0 : byMs), written));
    const notices = clockNotices(found.timeline.clocks, clockOf('UTC')).join(' ');
    expect(differences(toRecord(found, 'test'), truth, true), JSON.stringify(found.timeline.clocks)).toEqual([]);
    expect(notices).toMatch(new RegExp(`The clock of [^.]*${train} was set ${byMs < 0 ? 'back' : 'forward'} by 1 h`));
    const steps = (toRecord(found, 'test').clocks ?? []).flatMap(({ stepSeconds }) => stepSeconds ?? []);
    expect([...new Set(steps)]).toEqual([byMs / 1000]);
    expect(notices).toContain(written === 'both' ? 'and the other trains' : 'exposures in its log and its headers');
  });

  const inFrames: readonly [number, string, number, number][] = [
    [1, 'wren', -HOUR_MS, 0.6],
    [1, 'wren', HOUR_MS, 0.4],
    [1, 'heron', -HOUR_MS, 0.3],
    [5, 'wren', -HOUR_MS, 0.7],
    [5, 'heron', HOUR_MS, 0.5],
  ];
  it.each(some(inFrames, 2))('is corrected without a log: night %i, %s by %i ms', async (seed, train, byMs, share) => {
    const { files, setMs } = night(seed, share);
    const alone = new Map([...files].filter(([path]) => !path.startsWith('logs/')));
    const truth = toRecord(await read(alone), 'test');
    const set = withFastComputer(alone, train, (atMs) => (atMs < setMs ? 0 : byMs), 'headers');
    const found = toRecord(await read(set), 'test');
    expect(differences(found, truth, true)).toEqual([]);
    expect((found.clocks ?? []).flatMap(({ stepSeconds }) => stepSeconds ?? [])).toEqual([byMs / 1000]);
    expect(found.warnings.map(({ code }) => code)).not.toContain('train-overlaps-itself');
  });
});
