import { readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { archivedNights } from '../../../src/archive.js';
import { readGoals } from '../../../src/archive-nights.js';
import { sum } from '../../../src/model/index.js';
import { recordText, type SessionRecord } from '../../../src/record/index.js';
import { CIERZO, frameOf, sessionOf } from '../../support/records.js';
import { cleanUp, tempFolder } from '../../support/temp-folder.js';

cleanUp();

const frames = (night: string, from: number, to: number) =>
  Array.from({ length: to - from }, (_, i) => frameOf(night, from + i));

function archiveOf(records: Readonly<Record<string, SessionRecord | string>>): string {
  const archive = tempFolder();
  for (const [name, record] of Object.entries(records))
    writeFileSync(join(archive, name), typeof record === 'string' ? record : recordText(record));
  return archive;
}

const keptHours = async (archive: string) =>
  sum((await archivedNights(archive)).nights.flatMap((n) => n.totals.map((t) => t.ms.kept))) / 3_600_000;

describe('reading an archive', () => {
  it.skipIf(process.platform === 'win32')(
    'passes over links that lead in circles or nowhere, and says so',
    async () => {
      const archive = archiveOf({ '2026-08-30.json': sessionOf('2026-08-30', 'y', frames('2026-08-30', 0, 15)) });
      symlinkSync('circle.json', join(archive, 'circle.json'));
      symlinkSync('gone.json', join(archive, '2026-08-31.json'));
      const remembering = { folder: tempFolder(), nowMs: Date.parse('2026-11-01T00:00:00Z'), build: 'x' };
      const { nights, warnings } = await archivedNights(archive, {}, remembering);
      expect(nights.map((n) => n.date)).toEqual(['2026-08-30']);
      expect(warnings.map(({ message }) => message).sort()).toEqual([
        '2026-08-31.json could not be read (it is gone, or a link to something that is gone); remove the link or ' +
          'restore the file',
        'circle.json could not be read (links that form a loop); fix or remove the link',
      ]);
    },
  );

  it('says that a rig file among the records is not read', () => {
    const archive = archiveOf({ 'rig.yaml': 'targets: [ { name: A, goals: { Ha: 1h } } ]' });
    expect(readGoals(archive).warnings.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^rig\.yaml in the archive is not read: goals of many nights belong in goals\.yaml/),
    ]);
  });

  it('sums nights up, oldest first, whatever their files are called', async () => {
    const archive = archiveOf({
      'a-copied-night.json': JSON.stringify(sessionOf('2026-09-01', 'x', frames('2026-09-01', 0, 3)), null, 2),
      '2026-08-30.json': sessionOf('2026-08-30', 'y', frames('2026-08-30', 0, 15)),
    });
    const { nights, warnings } = await archivedNights(archive);
    expect(nights.map((n) => n.date)).toEqual(['2026-08-30', '2026-09-01']);
    expect(warnings).toEqual([]);
    expect(nights[0]).toMatchObject({
      site: { minimumAltitudeDeg: 25, darkness: 'nautical' },
      isDarkness: true,
      totals: [{ target: 'NGC 281', filter: 'Ha', train: 'heron', ms: { kept: 15 * 240_000 } }],
    });
    expect(nights[0]?.trains[0]).toMatchObject({
      id: 'heron',
      guidingRmsArcsec: 0.6,
      starSize: 2.4,
      ditherWaitMs: null,
    });
    expect(nights[0]?.used).toEqual({
      startMs: Date.parse('2026-08-30T20:00:00Z'),
      endMs: Date.parse('2026-08-30T20:00:00Z') + 14 * 300_000 + 240_000,
    });
  });

  it('is empty for an empty archive', async () => {
    expect(await archivedNights(tempFolder())).toEqual({ nights: [], warnings: [] });
  });

  it('merges files of one night and site that a user put beside each other', async () => {
    const night = '2026-09-01';
    const archive = archiveOf({
      '2026-09-01.json': sessionOf(night, 'a', frames(night, 0, 10)),
      '2026-09-01.copy.json': sessionOf(night, 'b', frames(night, 0, 15)),
    });
    expect((await archivedNights(archive)).nights).toHaveLength(1);
    expect(await keptHours(archive)).toBe(1);
  });

  it('counts a frame once that stands in the records of two neighbouring nights, in the one that knows its site', async () => {
    const own = frames('2026-09-02', 0, 15);
    const archive = archiveOf({
      '2026-09-01.json': sessionOf('2026-09-01', 'utc', own, { site: null }),
      '2026-09-02.json': sessionOf('2026-09-02', 'local', own),
    });
    const { nights, warnings } = await archivedNights(archive);
    expect(nights.map((n) => [n.date, sum(n.totals.map((t) => t.frames.kept))])).toEqual([
      ['2026-09-01', 0],
      ['2026-09-02', 15],
    ]);
    expect(warnings.map((w) => [w.code, w.count])).toEqual([['frames-of-two-nights', 15]]);
  });

  it('keeps nights of two sites on one date apart', async () => {
    const night = '2026-09-01';
    const archive = archiveOf({
      '2026-09-01.json': sessionOf(night, 'a', frames(night, 0, 2)),
      '2026-09-01.far.json': sessionOf(night, 'b', [frameOf(night, 0, { identity: 'far' })], {
        site: { ...CIERZO, name: 'Far', latitude: -24.6, longitude: -70.4 },
      }),
    });
    expect((await archivedNights(archive)).nights.map((n) => n.site?.name)).toEqual(['Far', 'Cierzo Hill']);
  });

  it('is not stopped by a record that is whole and makes no sense', async () => {
    const night = '2026-09-01';
    const archive = archiveOf({
      '2026-09-01.json': sessionOf(night, 'a', frames(night, 0, 2), { site: { ...CIERZO, latitude: 400 } }),
      '2026-09-02.json': sessionOf('2026-09-02', 'a', [frameOf('2026-09-02', 0, { seconds: 1e300 })]),
      '2026-09-03.json': { ...sessionOf('2026-09-03', 'a', []), night: '2026-13-45' },
      '2026-09-04.json': sessionOf('2026-09-04', 'a', frames('2026-09-04', 0, 1), {
        window: { start: '2026-09-05T04:00:00.000Z', end: '2026-09-04T19:00:00.000Z', kind: 'nautical' },
      }),
    });
    const { nights, warnings } = await archivedNights(archive);
    expect(nights.map((n) => [n.date, n.site === null])).toEqual([
      ['2026-09-01', true],
      ['2026-09-04', false],
    ]);
    expect(warnings.map((w) => w.code)).toEqual(['damaged-record', 'damaged-record']);
  });

  it('sets damaged records aside and reads the others; other JSON is none of its business', async () => {
    const archive = archiveOf({
      '2026-09-01.json': sessionOf('2026-09-01', 'a', frames('2026-09-01', 0, 2)),
      '2026-09-02.json': '',
      '2026-09-03.json': JSON.stringify({ ...sessionOf('2026-09-03', 'a', []), schema: 'nightledger/night/7' }),
      'progress.json': '{"schema":"nightledger/progress/1"}',
      'notes.json': 'not even JSON',
      'hand-named.json': '{"schema": "nightledger/night/1", cut off',
    });
    const { nights, warnings } = await archivedNights(archive);
    expect(nights.map((n) => n.date)).toEqual(['2026-09-01']);
    expect(warnings.map((w) => w.code).sort()).toEqual(['damaged-record', 'newer-record', 'no-record']);
    expect(readdirSync(archive).sort()).toEqual([
      '2026-09-01.json',
      '2026-09-02.json',
      '2026-09-03.json',
      'hand-named.json.damaged',
      'notes.json',
      'progress.json',
    ]);
  });
});
