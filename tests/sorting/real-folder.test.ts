/** `nightledger sort` on sessions as a user has them: real FITS files, two trains, calibration frames, two nights. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { sortedOf } from '../../src/record/archive/sorted.js';
import { nightledgerIn } from '../support/command-line.js';
import { type CardInput, writeFits } from '../support/fits-writer.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const RIG = `
site: { name: "Cierzo Hill", latitude: 40.42, longitude: -1.12, elevation: 1100, timezone: Europe/Madrid, minimumAltitude: 25 }
darkness: nautical
trains:
  - { id: heron, role: pilot, frames: [ "frames/heron/**/*.fits" ] }
  - { id: wren, role: companion, frames: [ "frames/wren/**/*.fits" ] }
targets:
  - { name: NGC 281, ra: "00:52:59", dec: "+56:37:19" }
`;

let serial = 0;
/** A frame of train heron at gain 100 and −10 °C, unless the cards say otherwise. */
function frame(session: string, file: string, more: Readonly<Record<string, string | number>> = {}): void {
  const cards = {
    'DATE-OBS': `2026-10-14T21:${String(serial++ % 60).padStart(2, '0')}:00.000`,
    EXPTIME: 30,
    IMAGETYP: 'Light Frame',
    OBJECT: 'NGC 281',
    FILTER: 'Ha',
    GAIN: 100,
    OFFSET: 20,
    XBINNING: 1,
    YBINNING: 1,
    'SET-TEMP': -10,
    ...more,
  };
  const path = join(session, 'frames', file);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, writeFits({ cards: Object.entries(cards) as CardInput[], width: 4, height: 3, bitpix: 16 }));
}

function session(): string {
  const folder = join(tempFolder(), 'night');
  mkdirSync(folder);
  writeFileSync(join(folder, 'rig.yaml'), RIG);
  return folder;
}

/** Every file below a folder, manifests left out, forward slashes. */
const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory() && !entry.name.startsWith('sorted-'))
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .sort();

const sort = (folder: string, tree: string, ...more: string[]) =>
  nightledgerIn(dirname(folder), 'sort', folder, '--into', tree, '--stars', 'off', ...more);

it('takes the calibration frames of the right train, gain, temperature, length and filter, and no others', async () => {
  const folder = session();
  frame(folder, 'heron/light.fits');
  frame(folder, 'wren/light.fits', { GAIN: 0 });
  const dark = { IMAGETYP: 'Dark Frame', OBJECT: '', FILTER: '' };
  const flat = { IMAGETYP: 'Flat Field', OBJECT: '', EXPTIME: 2 };
  const bias = { IMAGETYP: 'Bias Frame', OBJECT: '', FILTER: '', EXPTIME: 0.001 };
  frame(folder, 'heron/dark.fits', dark);
  frame(folder, 'heron/dark-half-a-degree.fits', { ...dark, 'SET-TEMP': -10.4 });
  frame(folder, 'heron/dark-warm.fits', { ...dark, 'SET-TEMP': 0 });
  frame(folder, 'heron/dark-gain.fits', { ...dark, GAIN: 0 });
  frame(folder, 'heron/dark-long.fits', { ...dark, EXPTIME: 60 });
  frame(folder, 'wren/dark.fits', { ...dark, GAIN: 0 });
  frame(folder, 'heron/flat.fits', flat);
  frame(folder, 'heron/flat-oiii.fits', { ...flat, FILTER: 'OIII' });
  frame(folder, 'heron/bias.fits', bias);
  frame(folder, 'heron/bias-gain.fits', { ...bias, GAIN: 0 });
  const tree = join(dirname(folder), 'tree');
  expect(await sort(folder, tree)).toMatchObject({
    status: 0,
    stderr: 'nightledger: 2026-10-14: no flats through Ha for 1 frame of wren\n',
  });
  expect(filesIn(tree)).toEqual([
    'NGC-281/Ha/heron/30s_gain100/bias/bias.fits',
    'NGC-281/Ha/heron/30s_gain100/darks/dark-half-a-degree.fits',
    'NGC-281/Ha/heron/30s_gain100/darks/dark.fits',
    'NGC-281/Ha/heron/30s_gain100/flats/flat.fits',
    'NGC-281/Ha/heron/30s_gain100/light.fits',
    'NGC-281/Ha/wren/30s_gain0/darks/dark.fits',
    'NGC-281/Ha/wren/30s_gain0/light.fits',
  ]);
});

it('keeps lengths apart, each with its darks, and names the darks that are missing', async () => {
  const folder = session();
  const dark = { IMAGETYP: 'Dark Frame', OBJECT: '', FILTER: '' };
  frame(folder, 'heron/short.fits');
  frame(folder, 'heron/long.fits', { EXPTIME: 59.99 });
  frame(folder, 'heron/cold.fits', { EXPTIME: 60, 'SET-TEMP': -20 });
  frame(folder, 'heron/dark-short.fits', dark);
  frame(folder, 'heron/dark-long.fits', { ...dark, EXPTIME: 60 });
  frame(folder, 'heron/flat.fits', { IMAGETYP: 'Flat Field', OBJECT: '', EXPTIME: 2 });
  const tree = join(dirname(folder), 'tree');
  const missing = '2026-10-14: no darks of 60 s, gain 100, offset 20, −20 °C for 1 frame of heron';
  const { status, stdout } = await sort(folder, tree, '--dry-run');
  expect(status).toBe(0);
  expect(stdout).toContain(missing.slice('2026-10-14: '.length));
  expect(await sort(folder, tree)).toMatchObject({ status: 0, stderr: `nightledger: ${missing}\n` });
  expect(filesIn(tree).filter((file) => !file.includes('/flats/'))).toEqual([
    'NGC-281/Ha/heron/30s_gain100_-10C/darks/dark-short.fits',
    'NGC-281/Ha/heron/30s_gain100_-10C/short.fits',
    'NGC-281/Ha/heron/60s_gain100_-10C/darks/dark-long.fits',
    'NGC-281/Ha/heron/60s_gain100_-10C/long.fits',
    'NGC-281/Ha/heron/60s_gain100_-20C/cold.fits',
  ]);
});

it('gives odd names that every system takes, and finds the originals by their own', async () => {
  const folder = session();
  const odd = [
    'two words.fits',
    'it\'s "quoted".fits',
    'two\nlines.fits',
    'CON.fits',
    'ends in dot..fits',
    'a:b*c?.fits',
  ];
  for (const name of odd) frame(folder, `heron/${name}`);
  const tree = join(dirname(folder), 'tree');
  expect((await sort(folder, tree)).status).toBe(0);
  const names = filesIn(tree).map((file) => file.split('/').at(-1));
  expect(names).toHaveLength(odd.length);
  // What Windows refuses in a name, or keeps for itself (from memory).
  for (const name of names) expect(name).not.toMatch(/[<>:"/\\|?*\p{Cc}]|[. ]$|^con\./iu);
  const manifest = readdirSync(tree).find((name) => name.startsWith('sorted-')) ?? '';
  const { files } = JSON.parse(readFileSync(join(tree, manifest), 'utf8')) as {
    files: { file: string; source: string }[];
  };
  expect(files.map(({ source }) => source).sort()).toEqual(odd.map((name) => `frames/heron/${name}`).sort());
  for (const { file, source } of files)
    expect(readFileSync(join(tree, file))).toEqual(readFileSync(join(folder, source)));
});

it('puts nights of several sessions into one tree, each with its manifest, and the archive knows of them', async () => {
  const [first, second] = [session(), session()];
  // The same name on both nights, as programs that count anew give it.
  frame(first, 'heron/light_1.fits');
  frame(second, 'heron/light_1.fits', { 'DATE-OBS': '2026-10-15T21:00:00.000' });
  frame(second, 'heron/light_2.fits', { 'DATE-OBS': '2026-10-15T21:10:00.000' });
  const [tree, archive] = [join(tempFolder(), 'tree'), join(tempFolder(), 'archive')];
  mkdirSync(archive);
  for (const folder of [first, second, second]) expect((await sort(folder, tree, '--archive', archive)).status).toBe(0);
  expect(filesIn(tree)).toEqual([
    'NGC-281/Ha/heron/30s_gain100/light_1.fits',
    'NGC-281/Ha/heron/30s_gain100/light_1_2026-10-15.fits',
    'NGC-281/Ha/heron/30s_gain100/light_2.fits',
  ]);
  expect(readdirSync(tree).filter((name) => name.startsWith('sorted-'))).toHaveLength(2);
  expect(sortedOf(archive)).toMatchObject([
    { night: '2026-10-14', session: first, into: tree, complete: true, files: 1 },
    { night: '2026-10-15', session: second, into: tree, complete: true, files: 2 },
  ]);
  // A note that was damaged by hand is no reason to fail; it is begun anew.
  writeFileSync(join(archive, 'sorted.json'), '{ "sorted": [');
  expect(sortedOf(archive)).toEqual([]);
  expect((await sort(first, tree, '--archive', archive)).status).toBe(0);
  expect(sortedOf(archive)).toHaveLength(1);
});
