/**
 * Gzip files that stop too soon, by their headers alone. The fixture was written by CFITSIO and compressed by GNU gzip;
 * that the last four bytes state the length, and that members may follow each other, is RFC 1952 (2.2, 2.3.1).
 */
import { readFileSync } from 'node:fs';
import { gunzipSync, gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readHeader } from '../../../src/gather/fits/index.js';
import { writeFits, writeFz } from '../../support/fits-writer.js';
import { FrameFolder, LIGHT } from './header-files.js';

const folder = new FrameFolder();
const SIZE = 96;
/** Noise that hardly packs. */
const pixels = Uint16Array.from({ length: SIZE * SIZE }, (_, pixel) => (pixel * 40_503 + pixel ** 2) % 65_521);
const plain = writeFits({ cards: LIGHT, width: SIZE, height: SIZE, bitpix: 16, pixels });
const packed = gzipSync(plain);
const fixture = readFileSync(new URL('fixtures/cfitsio-plain.fits.gz', import.meta.url));

const readOne = async (bytes: Buffer) => {
  const { frames, warnings } = await folder.read({ 'one.fits.gz': bytes });
  return { isCutOff: frames[0]?.isCutOff === true, warnings };
};
/** Header and image without the fill of the last block. */
const NEEDED_BYTES = 2880 + SIZE * SIZE * 2;

describe('a gzip file that stops in its pixels', () => {
  it('is cut off, wherever it stops', async () => {
    for (const share of [0.3, 0.6, 0.95]) {
      const { isCutOff, warnings } = await readOne(packed.subarray(0, Math.floor(packed.length * share)));
      expect(isCutOff, `${share}`).toBe(true);
      expect(warnings).toMatchObject([{ code: 'truncated-file', source: { file: 'one.fits.gz' } }]);
      expect(warnings[0]?.message).toMatch(/unpacked, the file has \d+ bytes, but its header describes \d+/);
    }
    expect(await readOne(fixture.subarray(0, fixture.length - 100))).toMatchObject({ isCutOff: true });
  });

  it('is cut off where it was packed after it had been cut', async () => {
    const { isCutOff, warnings } = await readOne(gzipSync(plain.subarray(0, 9000)));
    expect(isCutOff).toBe(true);
    expect(warnings[0]?.message).toContain('has 9000 bytes');
  });

  it('is cut off where no compression could hold what its header describes', async () => {
    const huge = writeFits({ cards: LIGHT, width: 60_000, height: 1, bitpix: 16 }).subarray(0, 2880);
    huge.write(String(60_000).padStart(20), huge.indexOf('NAXIS2') + 10, 'latin1');
    const { isCutOff, warnings } = await readOne(gzipSync(huge));
    expect(isCutOff).toBe(true);
    expect(warnings[0]?.message).toContain('too few');
  });
});

describe('a gzip file that is whole', () => {
  it.each([
    ['in one member', packed],
    ['without the fill of its last block', gzipSync(plain.subarray(0, NEEDED_BYTES))],
    ['as other programs wrote it', fixture],
  ])('%s', async (_, bytes) => {
    expect(await readOne(bytes)).toMatchObject({ isCutOff: false, warnings: [] });
  });

  it('in several members, the last of them empty, or with zeros behind it', async () => {
    const members = Buffer.concat([gzipSync(plain.subarray(0, 7000)), gzipSync(plain.subarray(7000))]);
    for (const bytes of [members, Buffer.concat([members, gzipSync('')]), Buffer.concat([packed, Buffer.alloc(512)])])
      expect(await readOne(bytes)).toMatchObject({ isCutOff: false, warnings: [] });
  });

  it('with an image in tiles, or with further units behind it', async () => {
    expect(
      await readOne(gzipSync(writeFz({ cards: LIGHT, width: SIZE, height: SIZE, bitpix: 16, pixels }))),
    ).toMatchObject({ isCutOff: false, warnings: [] });
    expect(await readOne(gzipSync(Buffer.concat([plain, Buffer.alloc(2880)])))).toMatchObject({ isCutOff: false });
  });

  it('is not inflated beyond its header', () => {
    const damaged = Buffer.from(packed);
    damaged.fill(0xff, 9000, 9400);
    folder.write('later.fits.gz', damaged);
    expect(readHeader(`${folder.path}/later.fits.gz`)).not.toHaveProperty('header.unprovenBytes');
    expect(gunzipSync(packed).equals(plain)).toBe(true);
  });
});
