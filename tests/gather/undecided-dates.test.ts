import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { parseRig } from '../../src/config/index.js';
import { checkDialect, formatCheck, loadDialect } from '../../src/gather/dialects/index.js';
import { gatherLogs } from '../../src/gather/logs.js';
import { listSessionFiles } from '../../src/gather/session-files.js';
import { inputNotices } from '../../src/report/html/view/input-notices.js';
import { sampleNight } from '../support/sample-night.js';

const root = mkdtempSync(join(tmpdir(), 'nightledger-undecided-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const RIG = `site: { name: Cierzo Hill, latitude: 40.42, longitude: -1.12, timezone: UTC }
trains: [ { id: heron, logs: [ { files: log.txt, dialect: d.yaml } ] } ]
`;
writeFileSync(join(root, 'rig.yaml'), RIG);
writeFileSync(join(root, 'log.txt'), '03/04/2026 21:00:10 open\n03/04/2026 21:05:10 shut\n');
writeFileSync(
  join(root, 'd.yaml'),
  'dialect: 1\ntime: { pattern: "{day}/{month}/{year} {hour}:{minute}:{second}", order: by-night }\nlines:\n' +
    '  - { when: open, event: exposure-begin }\n  - { when: shut, event: exposure-end }\n',
);

const gather = (evening: string | undefined) =>
  gatherLogs(root, listSessionFiles(root, [], false).files, parseRig('rig.yaml', RIG).rig, {
    evening,
    untrusted: false,
  });

describe('a log whose dates can be read with day or month first', () => {
  it.each([
    ['2026-03-04', Date.UTC(2026, 2, 4, 21, 0, 10)],
    ['2026-04-03', Date.UTC(2026, 3, 3, 21, 0, 10)],
  ])('is read as of the night that it is reported for, %s', async (evening, atMs) => {
    const { events, warnings } = await gather(evening);
    expect(events.map((event) => event.atMs)).toEqual([atMs, atMs + 300_000]);
    expect(warnings).toEqual([]);
  });

  it.each(['2026-09-01', undefined])('counts for nothing on %s, and the report says why', async (evening) => {
    const { events, warnings } = await gather(evening);
    expect(events).toEqual([]);
    expect(warnings).toEqual([
      expect.objectContaining({ code: 'undecided-date', message: expect.stringContaining('leaves the log out') }),
    ]);
  });
});

describe('that a log’s dates can be read in two ways', () => {
  it('is the first thing that a check says, with what to do', async () => {
    const { dialect } = loadDialect('d.yaml', readFileSync(join(root, 'd.yaml'), 'utf8'));
    if (!dialect) throw new Error('the dialect cannot be read');
    const text = formatCheck(await checkDialect(root, 'log.txt', dialect));
    expect(text).toMatch(/^Whether day or month comes first in the dates of log\.txt is not decided/);
    expect(text.match(/is not decided/g)).toHaveLength(1);
  });

  it('stands on the first screen of the report', async () => {
    const night = await sampleNight('twin-night');
    const { warnings } = await gather('2026-09-01');
    expect(inputNotices({ ...night, timeline: { ...night.timeline, warnings } })).toContainEqual(
      expect.stringContaining('Whether day or month comes first in the dates of log.txt is not decided'),
    );
  });
});
