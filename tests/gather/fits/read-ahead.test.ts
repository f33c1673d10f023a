import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { fillRing, RingTaker, sharedRing } from '../../../src/gather/fits/ahead-ring.js';
import { readHeaderFrames } from '../../../src/gather/fits/index.js';
import { type CardInput, writeFits } from '../../support/fits-writer.js';
import { FrameFolder, LIGHT, light, NOW_MS } from './header-files.js';

// The build makes the thread's program a start file of its own; tests run after a build.
const program = fileURLToPath(new URL('../../../dist/header-worker.js', import.meta.url));
const folder = new FrameFolder();
const longer = (cards: number): CardInput[] => Array.from({ length: cards }, (_, i): CardInput => [`FILL${i}`, i]);

/** Runs of plain frames with every kind of file between them that is to be read otherwise. */
function manyFiles(): string[] {
  const odd: Readonly<Record<string, Buffer>> = {
    'empty.fits': Buffer.alloc(0),
    'notes.fits': Buffer.from('not a frame'),
    'packed.fits.gz': writeFits({ cards: [...LIGHT, ...longer(300)], width: 64, height: 64, bitpix: 16, gzip: true }),
    'long.fits': writeFits({ cards: [...longer(150), ...LIGHT], width: 4, height: 3, bitpix: 16 }),
    'longest.fits': writeFits({ cards: [...longer(400), ...LIGHT], width: 4, height: 3, bitpix: 16 }),
    'cut.fits': light().subarray(0, 900),
  };
  for (const [name, bytes] of Object.entries(odd)) folder.write(name, bytes);
  const plain = Array.from({ length: 10 }, (_, i) => `light-${i}.fits`);
  for (const [i, name] of plain.entries()) folder.write(name, light(['GAIN', i]));
  const names = [...plain, ...Object.keys(odd), 'missing.fits', '.'];
  return Array.from({ length: 1200 }, (_, i) => names[(i * 7) % (i < 600 ? plain.length : names.length)] ?? '');
}

describe('headers read ahead in a thread', () => {
  it.each([
    ['the thread', program],
    ['a thread that fails', fileURLToPath(import.meta.url)],
  ])('say the same as those read one after another: %s', async (_, withProgram) => {
    expect(existsSync(program)).toBe(true);
    const files = manyFiles();
    const read = (ahead: { program: string; fewest: number }) =>
      readHeaderFrames(folder.path, files, { nowMs: NOW_MS, ahead });
    const together = await read({ program: withProgram, fewest: 1 });
    expect(together).toEqual(await read({ program, fewest: Infinity }));
    expect(together.frames.length).toBeGreaterThan(900);
  });
});

describe('the ring', () => {
  it('hands over what was read, in its order, and leaves the first runs to who is there already', () => {
    const ring = sharedRing(100);
    const taker = new RingTaker(ring);
    const read: number[] = [];
    fillRing(ring, 100, (file, into, at) => {
      read.push(file);
      return file === 50 ? null : [into.write(`file ${file}`, at), 1000 + file];
    });
    expect(read).toEqual(Array.from({ length: 68 }, (_, i) => 32 + i));
    for (let file = 0; file < 100; file++) {
      const found = taker.take(file);
      expect(found?.sizeBytes).toBe(file < 32 || file === 50 ? undefined : 1000 + file);
      if (found) expect(found.bytes.toString('latin1', 0, found.filled)).toBe(`file ${file}`);
    }
  });

  it('leaves a run of files to who comes to it first, and reads nothing once it is stopped', () => {
    const ring = sharedRing(80);
    const taker = new RingTaker(ring);
    for (let file = 0; file < 40; file++) expect(taker.take(file)).toBeUndefined();
    const read: number[] = [];
    fillRing(ring, 80, (file) => {
      read.push(file);
      return [1, 1];
    });
    expect(read).toEqual(Array.from({ length: 16 }, (_, i) => 64 + i));
    expect(taker.take(64)?.sizeBytes).toBe(1);
    taker.stop();
    fillRing(sharedRing(0), 0, () => expect.unreachable());
    const stopped = sharedRing(10_000);
    new RingTaker(stopped).stop();
    fillRing(stopped, 10_000, () => expect.unreachable());
  });
});
