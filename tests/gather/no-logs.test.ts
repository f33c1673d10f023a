import { copyFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { withoutNoLogs } from '../../src/gather/no-logs.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

let root: string;
beforeEach(() => {
  root = tempFolder();
});
const file = (path: string, text: string) => {
  writeFileSync(join(root, path), text);
  return { path, sizeBytes: text.length };
};
const left = (...files: { path: string; sizeBytes: number }[]): string[] =>
  withoutNoLogs(root, files).map(({ path }) => path);

/** Rows of a log, one a minute. */
const rows = (time: (minute: number) => string | number): string =>
  JSON.stringify({ rows: Array.from({ length: 20 }, (_, i) => ({ when: time(i), what: 'exposure begins' })) });

describe('documents that are no logs', () => {
  it.each(['twin-night/expected.json', 'star-night/expected.json', 'autumn-archive/2026-09-08.json'])(
    'are results: %s',
    (name) => {
      copyFileSync(new URL(`../../sample-sessions/${name}`, import.meta.url), join(root, 'result.json'));
      expect(left({ path: 'result.json', sizeBytes: 1 })).toEqual([]);
    },
  );

  it('are settings, and lists without times', () => {
    expect(
      left(
        file(
          'camera.json',
          '{ "gain": 100, "port": 11111, "cooler": { "setpoint": -10 }, "saved": "2026-10-14 18:02" }',
        ),
        file(
          'filters.json',
          JSON.stringify({ wheel: ['L', 'R', 'G', 'B'].map((name, i) => ({ name, offset: 12 * i })) }),
        ),
        file('site.xml', '<site latitude="40.42" longitude="-1.12"><horizon az="0" alt="12.5"/></site>'),
        file('empty.json', ''),
      ),
    ).toEqual([]);
  });

  it('are distinguished from logs, whatever counts their time', () => {
    const start = Date.UTC(2026, 9, 14, 19);
    const logs = [
      file(
        'clock.json',
        rows((i) => new Date(start + i * 60_000).toISOString()),
      ),
      file(
        'unix.json',
        rows((i) => start / 1000 + i * 60),
      ),
      file(
        'days.json',
        rows((i) => Number((61_327.79 + i / 1440).toFixed(5))),
      ),
      file(
        'ticks.json',
        rows((i) => 100_000 + i * 60_000),
      ),
      file('log.xml', '<log><e at="20:04:10"/><e at="20:09:12"/><e at="20:14:20"/></log>'),
      file('words.txt', 'nothing to see'),
    ];
    expect(left(...logs)).toEqual(logs.map(({ path }) => path));
  });

  it('are left to their reader where they cannot be read', () => {
    expect(left({ path: 'gone.json', sizeBytes: 0 })).toEqual(['gone.json']);
  });
});
