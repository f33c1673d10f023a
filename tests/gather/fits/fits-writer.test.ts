/** The writer of test frames and sample sessions, judged by tools that know nothing of it. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type CardInput, cardImages, writeExtension, writeFits, writeFz } from '../../support/fits-writer.js';
import { FrameFolder } from './header-files.js';

const folder = new FrameFolder();
const missing = (tool: string) => spawnSync(tool, ['-H']).error !== undefined;

const CARDS: readonly CardInput[] = [
  ['DATE-OBS', '2026-10-14T19:42:10.250', 'start of the exposure'],
  ['EXPTIME', 300.5, '[s] exposure'],
  ['TINY', 1.5e-7],
  ['HUGE', -3e22],
  ['GUIDED', false],
  ['OBJECT', "Cierzo's star"],
  ['NOTES', `It's ${'a very long note, '.repeat(20)}'quoted'`, 'continued'],
  ['MARKS', "'".repeat(90)],
  ['ESO INS FOCU POS', 12.5, 'the hierarchical way'],
  ['ESO INS LONG NOTE', 'text '.repeat(30)],
  'COMMENT a comment',
  '',
  'HISTORY and a history',
];
const PIXELS = Uint16Array.from({ length: 20 * 15 }, (_, pixel) => (pixel * 211) % 65_536);

describe('cards', () => {
  it('are in fixed format', () => {
    expect(cardImages(['EXPTIME', 300])[0]).toBe(`EXPTIME = ${'300'.padStart(20)}`.padEnd(80));
    expect(cardImages(['GUIDED', true, 'yes'])[0]).toBe(`GUIDED  = ${'T'.padStart(20)} / yes`.padEnd(80));
    expect(cardImages(['FILTER', 'Ha', 'filter'])[0]).toBe("FILTER  = 'Ha      '           / filter".padEnd(80));
    expect(cardImages(['TINY', 1.5e-7])[0]).toBe(`TINY    = ${'1.5E-7'.padStart(20)}`.padEnd(80));
  });

  it('never part a doubled quote', () => {
    for (let before = 60; before < 70; before++) {
      for (const image of cardImages(['NOTES', `${'x'.repeat(before)}'${'y'.repeat(60)}`]))
        expect((image.match(/'/g)?.length ?? 0) % 2).toBe(0);
    }
  });

  it('that FITS cannot have are refused', () => {
    for (const card of [
      ['OBJECT', 'Cúmulo'],
      ['OBJECT', 'a\nb'],
      ['EXPTIME', Number.NaN],
      ['lower', 1],
      ['', 1],
      ['FILTER', 'L', 'naïve'],
      'x'.repeat(81),
    ] as CardInput[]) {
      expect(() => cardImages(card)).toThrow(RangeError);
    }
  });
});

describe.skipIf(missing('fitsverify'))('fitsverify (skipped where it is not installed)', () => {
  const image = { cards: CARDS, width: 20, height: 15, pixels: PIXELS };
  const files: readonly { name: string; bytes: Buffer }[] = [
    { name: '8', bytes: writeFits({ ...image, bitpix: 8, pixels: PIXELS.map((value) => value & 255) }) },
    ...([16, 32, 64, -32, -64] as const).map((bitpix) => ({
      name: String(bitpix),
      bytes: writeFits({ ...image, bitpix }),
    })),
    {
      name: '16-in-an-extension',
      bytes: writeExtension({ ...image, bitpix: 16, primaryCards: [['TELESCOP', 'heron']] }),
    },
    { name: '16-in-tiles', bytes: writeFz({ ...image, bitpix: 16 }) },
    { name: '32-in-tiles', bytes: writeFz({ ...image, bitpix: 32 }) },
  ];
  it.each(files)('finds no error in pixels of $name', ({ name, bytes }) => {
    const { stdout } = spawnSync('fitsverify', ['-e', '-q', folder.write(`${name}.fits`, bytes)], { encoding: 'utf8' });
    expect(stdout).toContain('verification OK');
  });
});

describe.skipIf(missing('funpack'))('funpack (skipped where it is not installed)', () => {
  it('unpacks the tiles to the pixels that were packed', () => {
    const image = { cards: CARDS, width: 20, height: 15, bitpix: 16, pixels: PIXELS } as const;
    const packed = folder.write('tiles.fits.fz', writeFz(image));
    const unpacked = `${folder.path}/unpacked.fits`;
    expect(spawnSync('funpack', ['-O', unpacked, packed]).status).toBe(0);
    const pixelBytes = 20 * 15 * 2;
    const plain = writeFits(image);
    const dataAt = plain.length - 2880;
    expect(readFileSync(unpacked).subarray(-2880, -2880 + pixelBytes)).toEqual(
      plain.subarray(dataAt, dataAt + pixelBytes),
    );
  });
});
