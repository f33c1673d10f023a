import {
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addFolders, addNights, archivedNights } from '../../../src/archive.js';
import { sum } from '../../../src/model/index.js';
import { readNights } from '../../../src/pipeline.js';
import { readRecord } from '../../../src/record/index.js';
import { writeFits, type CardInput } from '../../support/fits-writer.js';
import { writeFiles } from '../../support/generator/samples.js';
import { HEADERS_ONLY } from '../../support/generator/scenarios.js';
import { writeSession } from '../../support/generator/write-session.js';
import { cleanUp, tempFolder } from '../../support/temp-folder.js';

cleanUp();

const OPTIONS = { nowMs: Date.UTC(2026, 10, 30), version: 'test' };

/** A light of an invented observatory. */
function light(path: string, begin: string, more: readonly CardInput[] = []): (folder: string) => void {
  return (folder) => {
    const file = join(folder, path);
    mkdirSync(dirname(file), { recursive: true });
    const cards: CardInput[] = [
      ['IMAGETYP', 'LIGHT'],
      ['DATE-OBS', begin],
      ['EXPTIME', 300],
      ['OBJECT', 'M 33'],
      ['FILTER', 'L'],
      ['TELESCOP', 'heron'],
      ['FOCALLEN', 480],
      ['RA', 23.4625],
      ['DEC', 30.6602],
      ['SITELAT', 40.42],
      ['SITELONG', -1.12],
      ...more,
    ];
    // The last card of a keyword is the one that counts.
    writeFileSync(
      file,
      writeFits({
        cards: [...new Map(cards.map((card) => [card[0], card] as const)).values()],
        width: 6,
        height: 4,
        bitpix: 16,
      }),
    );
  };
}

function folderWith(...lights: readonly ((folder: string) => void)[]): string {
  const folder = tempFolder();
  for (const make of lights) make(folder);
  return folder;
}

async function add(archive: string, ...folders: string[]) {
  const results = await addFolders(archive, folders, OPTIONS);
  const [first] = results;
  if (!first) throw new Error('no folder');
  return first;
}

const kept = async (archive: string) =>
  sum((await archivedNights(archive)).nights.flatMap((n) => n.totals.map((t) => t.frames.kept)));
const states = (result: Awaited<ReturnType<typeof add>>) => result.nights.map((n) => [n.night, n.state]);

const evening = (n: number) => light(`2026/a/${n}.fits`, `2026-10-10T21:${String(10 + 6 * n).padStart(2, '0')}:00`);

describe('importing past nights from their frames', () => {
  it('groups lights by night and train, and marks the records as of headers only', async () => {
    const folder = tempFolder();
    const { files, truth } = writeSession(HEADERS_ONLY, { logs: false, rig: false });
    writeFiles(folder, files);
    const archive = join(tempFolder(), 'archive');
    const result = await add(archive, folder);
    expect(states(result)).toEqual([['2026-11-09', 'new']]);
    const reading = readRecord(readFileSync(join(archive, '2026-11-09.json'), 'utf8'));
    expect(reading.ok && reading.record.headersOnly).toBe(true);
    expect(
      reading.ok && reading.record.totals.map((t) => `${t.target} ${t.filter} ${t.train} ${t.seconds.kept}`).sort(),
    ).toEqual(truth.totals.map((t) => `${t.target} ${t.filter} ${t.train} ${t.seconds.kept}`).sort());
  });

  it('reads nothing the second time, and only what is new the third', async () => {
    const folder = folderWith(evening(0), evening(1));
    const archive = tempFolder();
    expect((await add(archive, folder)).read).toBe(2);
    const before = readFileSync(join(archive, '2026-10-10.json'));
    const second = await add(archive, folder);
    expect([second.read, second.nights]).toEqual([0, []]);
    expect(readFileSync(join(archive, '2026-10-10.json')).equals(before)).toBe(true);
    evening(2)(folder);
    light('b/other.fits', '2026-10-12T22:00:00')(folder);
    const third = await add(archive, folder);
    expect(third.read).toBe(2);
    expect(states(third)).toEqual([
      ['2026-10-10', 'replaced'],
      ['2026-10-12', 'new'],
    ]);
    expect(await kept(archive)).toBe(4);
  });

  it('knows a file again that was moved, renamed or touched, by its header', async () => {
    const folder = folderWith(evening(0), evening(1), evening(2));
    const archive = tempFolder();
    await add(archive, folder);
    mkdirSync(join(folder, 'sorted'));
    renameSync(join(folder, '2026/a/0.fits'), join(folder, 'sorted/M33_0001.fits'));
    utimesSync(join(folder, '2026/a/1.fits'), 1_700_000_000, 1_700_000_000);
    const result = await add(archive, folder);
    expect([result.read, result.moved, result.nights]).toEqual([2, 1, []]);
    expect(await kept(archive)).toBe(3);
  });

  it('counts copies once, in one folder and in folders within each other', async () => {
    const folder = folderWith(evening(0), evening(1));
    copyFileSync(join(folder, '2026/a/0.fits'), join(folder, 'backup.fits'));
    const archive = tempFolder();
    expect((await add(archive, folder)).copies).toBe(1);
    await add(archive, join(folder, '2026'));
    await add(archive, join(folder, '2026/a'), folder);
    expect(await kept(archive)).toBe(2);
  });

  it('adds nothing to a night already known from its logs', async () => {
    const folder = tempFolder();
    writeFiles(folder, writeSession({ ...HEADERS_ONLY, end: '2026-11-09T19:40:00.000Z' }).files);
    const archive = tempFolder();
    const nights = await readNights(folder, OPTIONS);
    await addNights(archive, nights, { session: folder, reports: new Map(), version: 'test' });
    const before = readFileSync(join(archive, '2026-11-09.json'));
    const result = await add(archive, join(folder, 'frames'));
    expect(result.nights).toEqual([]);
    expect(readFileSync(join(archive, '2026-11-09.json')).equals(before)).toBe(true);
  });

  it('goes on after it was broken off: what was written down is not read again, and nights are made up for', async () => {
    const folder = folderWith(evening(0), evening(1), evening(2));
    const archive = tempFolder();
    await add(archive, folder);
    const [index] = readdirSync(join(archive, '.index'));
    const path = join(archive, '.index', index ?? '');
    truncateSync(path, readFileSync(path).length - 100);
    rmSync(join(archive, '2026-10-10.json'));
    const result = await add(archive, folder);
    expect(result.read).toBe(1);
    expect(states(result)).toEqual([['2026-10-10', 'new']]);
    expect(await kept(archive)).toBe(3);
  });

  it('makes no night of a clock that was never set, and says so', async () => {
    const archive = tempFolder();
    const result = await add(
      archive,
      folderWith(evening(0), light('x.fits', '1970-01-01T00:00:12'), light('y.fits', '2031-05-01T22:00:00')),
    );
    expect(states(result)).toEqual([['2026-10-10', 'new']]);
    expect(result.warnings.find((w) => w.code === 'implausible-date')).toMatchObject({ count: 2 });
  });

  it('keeps sites apart, each with its own midnight', async () => {
    const archive = tempFolder();
    const desert = [
      ['SITELAT', -24.6],
      ['SITELONG', -70.4],
    ] as const satisfies readonly CardInput[];
    // 03:00 UTC is the same evening still in the west, and the small hours in Teruel.
    const result = await add(
      archive,
      folderWith(
        light('home.fits', '2026-10-11T03:01:40'),
        light('far.fits', '2026-10-11T13:00:00', desert),
        light('far2.fits', '2026-10-11T03:00:00', desert),
      ),
    );
    expect(states(result)).toEqual([
      ['2026-10-10', 'new'],
      ['2026-10-10', 'new'],
    ]);
    expect((await archivedNights(archive)).nights.map((n) => sum(n.totals.map((t) => t.frames.taken))).sort()).toEqual([
      1, 2,
    ]);
  });

  it('tells trains by a rig file when one is given', async () => {
    const archive = tempFolder();
    const folder = folderWith(evening(0), light('w.fits', '2026-10-10T21:11:00', [['TELESCOP', 'wren']]));
    const rig = 'trains:\n  - { id: long, match: { TELESCOP: wren } }\n  - { id: short, match: { TELESCOP: heron } }\n';
    const [result] = await addFolders(archive, [folder], { ...OPTIONS, rig: { name: 'rig.yaml', text: rig } });
    expect(result?.nights).toHaveLength(1);
    expect((await archivedNights(archive)).nights[0]?.trains.map((t) => t.id).sort()).toEqual(['long', 'short']);
    await expect(
      addFolders(archive, [folder], { ...OPTIONS, rig: { name: 'rig.yaml', text: 'trains: 5' } }),
    ).rejects.toThrow('rig.yaml:1: trains must be a list');
  });

  it('tells what is no FITS, leaves it out, and does not look at it again', async () => {
    const folder = folderWith(evening(0));
    writeFileSync(join(folder, 'broken.fits'), 'not FITS at all');
    const archive = tempFolder();
    const result = await add(archive, folder);
    expect(result.warnings.map((w) => w.code)).toContain('no-header');
    expect((await add(archive, folder)).read).toBe(0);
    expect(await kept(archive)).toBe(1);
  });

  it('tells the progress of headers and of nights to the end', async () => {
    const seen: string[] = [];
    await addFolders(tempFolder(), [folderWith(evening(0), evening(1))], {
      ...OPTIONS,
      onProgress: (what, done, total) => seen.push(`${what} ${done}/${total}`),
    });
    expect(seen).toContain('headers 2/2');
    expect(seen.at(-1)).toBe('nights 1/1');
  });
});
