import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { archivedNights } from '../../../src/archive.js';
import type { ArchivedNights, Remembering, SessionRecord } from '../../../src/record/index.js';
import { recordText } from '../../../src/record/index.js';
import { CIERZO, frameOf, sessionOf } from '../../support/records.js';
import { sampleFolder } from '../../support/sample-night.js';
import { cleanUp, tempFolder } from '../../support/temp-folder.js';

cleanUp();

const NIGHTS = ['2026-09-01', '2026-09-02', '2026-09-05', '2026-09-10'];
/** A run in some minutes: by then the files that a test has just written have settled. */
const later = (): number => Date.now() + 300_000;
const memoryIn = (folder: string, more: Partial<Remembering> = {}): Remembering => ({
  folder,
  build: 'one',
  nowMs: later(),
  ...more,
});

const frames = (night: string, count: number) => Array.from({ length: count }, (_, i) => frameOf(night, i));
const nightOf = (night: string, count = 3, more: Partial<SessionRecord> = {}): string =>
  recordText(sessionOf(night, 'a', frames(night, count), more));

function archiveOf(nights: readonly string[] = NIGHTS): string {
  const archive = tempFolder();
  for (const night of nights) writeFileSync(join(archive, `${night}.json`), nightOf(night));
  return archive;
}

const cacheFile = (folder: string): string => {
  const [name, ...others] = readdirSync(folder);
  expect(others).toEqual([]);
  return join(folder, name ?? '');
};

/** Puts another reason to be seen into what is remembered, as no record has it: whoever reads it remembers. */
function markRemembered(folder: string): void {
  const file = cacheFile(folder);
  const body = readFileSync(file, 'utf8').split('\n').slice(1).join('\n').replaceAll('"Ha"', '"of the cache"');
  writeFileSync(file, `${createHash('sha256').update(body).digest('hex')}\n${body}`);
}

/** Nights whose sums came from the cache. */
const fromCache = ({ nights }: ArchivedNights): string[] =>
  nights.flatMap((night) => (night.totals.some(({ filter }) => filter === 'of the cache') ? [night.date] : []));

async function remembered(archive: string, more: Partial<Remembering> = {}) {
  const folder = join(tempFolder(), 'nights');
  await archivedNights(archive, {}, memoryIn(folder));
  markRemembered(folder);
  return { folder, again: () => archivedNights(archive, {}, memoryIn(folder, more)) };
}

describe('what an archive was summed up to', () => {
  it('is the same, remembered or read', async () => {
    const archive = sampleFolder('autumn-archive');
    const folder = join(tempFolder(), 'nights');
    for (const counting of ['clock', 'effective'] as const) {
      const read = await archivedNights(archive, { counting });
      const first = await archivedNights(archive, { counting }, memoryIn(folder));
      const again = await archivedNights(archive, { counting }, memoryIn(folder));
      expect(first).toEqual(read);
      expect(JSON.stringify(again)).toBe(JSON.stringify(read));
    }
    expect(readdirSync(folder)).toHaveLength(2);
  });

  // The file beside a changed one is read with it: they might share frames.
  it('is remembered for each file that has not changed', async () => {
    const archive = archiveOf();
    const { again } = await remembered(archive);
    expect(fromCache(await again())).toEqual(NIGHTS);
    writeFileSync(join(archive, '2026-09-10.json'), nightOf('2026-09-10', 5));
    const changed = await again();
    expect(fromCache(changed)).toEqual(NIGHTS.slice(0, 2));
    expect(changed.nights.map((n) => n.totals[0]?.frames.taken)).toEqual([3, 3, 3, 5]);
  });

  it('is read again from a file that changed and has its old size and date', async () => {
    const archive = archiveOf();
    const { again } = await remembered(archive);
    const file = join(archive, '2026-09-10.json');
    const { atime, mtime } = statSync(file);
    writeFileSync(file, readFileSync(file, 'utf8').replaceAll('"OIII"', '"SII"').replaceAll('"Ha"', '"Hb"'));
    utimesSync(file, atime, mtime);
    expect(fromCache(await again())).toEqual(NIGHTS.slice(0, 2));
  });

  it('is not remembered of a file that changed a moment before', async () => {
    const archive = archiveOf();
    const folder = join(tempFolder(), 'nights');
    const file = join(archive, '2026-09-10.json');
    await archivedNights(archive, {}, memoryIn(folder, { nowMs: statSync(file).mtimeMs + 1000 }));
    expect(readdirSync(tempFolder())).toEqual([]);
    await archivedNights(archive, {}, memoryIn(folder));
    expect(readdirSync(folder)).toHaveLength(1);
  });

  it('is another build’s own affair, and nothing when damaged', async () => {
    const archive = archiveOf();
    const other = await remembered(archive, { build: 'two' });
    expect(fromCache(await other.again())).toEqual([]);
    const { folder, again } = await remembered(archive);
    writeFileSync(cacheFile(folder), readFileSync(cacheFile(folder), 'utf8').slice(0, -20));
    const read = await again();
    expect(fromCache(read)).toEqual([]);
    expect(read.nights).toHaveLength(4);
  });

  it('gives way to the records where a new one may share frames or the night', async () => {
    const archive = archiveOf();
    const { again } = await remembered(archive);
    // The first night's frames once more, under the next day's date and without a site.
    writeFileSync(
      join(archive, '2026-09-02.copy.json'),
      recordText(sessionOf('2026-09-02', 'b', frames('2026-09-01', 3), { site: null })),
    );
    const { nights, warnings } = await again();
    const read = await archivedNights(archive);
    expect(nights.map((n) => n.date)).toEqual(read.nights.map((n) => n.date));
    expect(warnings).toEqual(read.warnings);
    expect(fromCache({ nights, warnings })).toEqual(['2026-09-05', '2026-09-10']);
  });

  it('keeps two sites of one night apart, in the order of their files', async () => {
    const archive = archiveOf(['2026-09-01']);
    writeFileSync(
      join(archive, '2026-09-01.far.json'),
      recordText(
        sessionOf('2026-09-01', 'b', [frameOf('2026-08-20', 0, { identity: 'far' })], {
          site: { ...CIERZO, name: 'Far', latitude: -24.6, longitude: -70.4 },
        }),
      ),
    );
    const { again } = await remembered(archive);
    const { nights } = await again();
    expect(nights.map((n) => n.site?.name)).toEqual(['Far', 'Cierzo Hill']);
    expect(fromCache({ nights, warnings: [] })).toHaveLength(2);
  });

  it('is done without where the cache cannot be written', async () => {
    const archive = archiveOf();
    const file = join(tempFolder(), 'no-folder');
    writeFileSync(file, '');
    expect((await archivedNights(archive, {}, memoryIn(join(file, 'nights')))).nights).toHaveLength(4);
  });
});
