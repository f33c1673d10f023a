import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { frameMeasurer } from '../../../src/stars/measure-frame.js';
import { type FrameMeasurement, isMeasured } from '../../../src/stars/types.js';
import { type CardInput, dataUnit, headerUnit, writeFits } from '../../support/fits-writer.js';
import { tempFolder } from '../../support/temp-folder.js';
import { runs } from '../../support/runs.js';

const folder = tempFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const measure = frameMeasurer();
const TILES = fileURLToPath(new URL('../reference/tiles/', import.meta.url));

async function measured(bytes: Buffer): Promise<FrameMeasurement> {
  const path = join(folder, 'frame.fits');
  writeFileSync(path, bytes);
  return measure({ id: 'frame.fits', path, sizeBytes: bytes.length, changedMs: 0 }, 'full');
}

async function reason(bytes: Buffer): Promise<string> {
  const result = await measured(bytes);
  return isMeasured(result) ? 'measured' : result.reason;
}

function image(cards: readonly CardInput[], bytes = 2880): Buffer {
  return Buffer.concat([headerUnit([['SIMPLE', true], ...cards]), dataUnit(Buffer.alloc(bytes, 1))]);
}

const SHAPE: readonly CardInput[] = [
  ['BITPIX', 16],
  ['NAXIS', 2],
  ['NAXIS1', 30],
  ['NAXIS2', 40],
];

describe('frames that cannot be measured say why', () => {
  it.each<[string, Buffer, RegExp]>([
    ['an empty file', Buffer.alloc(0), /no image/],
    ['text', Buffer.from('not a picture'.repeat(500)), /no END card|begin like a FITS/],
    [
      'a header that promises more than the file has',
      image([
        ['BITPIX', 16],
        ['NAXIS', 2],
        ['NAXIS1', 6000],
        ['NAXIS2', 4000],
      ]),
      /shorter than its header states/,
    ],
    [
      'an absurd axis',
      image([
        ['BITPIX', 16],
        ['NAXIS', 2],
        ['NAXIS1', 2_000_000_000],
        ['NAXIS2', 3],
      ]),
      /NAXIS1 is 2000000000/,
    ],
    [
      'a negative axis',
      image([
        ['BITPIX', 16],
        ['NAXIS', 2],
        ['NAXIS1', -5],
        ['NAXIS2', 3],
      ]),
      /NAXIS1 is -5/,
    ],
    [
      'BITPIX 12',
      image([
        ['BITPIX', 12],
        ['NAXIS', 2],
        ['NAXIS1', 30],
        ['NAXIS2', 40],
      ]),
      /BITPIX 12/,
    ],
    ['BSCALE 0', image([...SHAPE, ['BSCALE', 0]]), /BSCALE 0/],
    [
      'a data cube',
      image([
        ['BITPIX', 16],
        ['NAXIS', 3],
        ['NAXIS1', 10],
        ['NAXIS2', 10],
        ['NAXIS3', 12],
      ]),
      /12 planes/,
    ],
    [
      'no image at all',
      headerUnit([
        ['SIMPLE', true],
        ['BITPIX', 8],
        ['NAXIS', 0],
      ]),
      /no image/,
    ],
    ['a header without END', Buffer.alloc(2880 * 3, ' '), /ends inside its header|END card|begin/],
    [
      'a gzip file cut short',
      gzipSync(
        image(
          [
            ['BITPIX', 16],
            ['NAXIS', 2],
            ['NAXIS1', 300],
            ['NAXIS2', 400],
          ],
          240_000,
        ),
      ).subarray(0, 250),
      /damaged|shorter/,
    ],
    [
      'a small gzip file that promises a huge frame',
      gzipSync(
        image([
          ['BITPIX', 16],
          ['NAXIS', 2],
          ['NAXIS1', 40_000],
          ['NAXIS2', 40_000],
        ]),
      ),
      /shorter/,
    ],
  ])('%s', async (_, bytes, expected) => {
    expect(await reason(bytes)).toMatch(expected);
  });

  it('a frame of numbers that are none', async () => {
    const pixels = new Float64Array(120 * 120).fill(Number.NaN);
    expect(await reason(writeFits({ cards: [], width: 120, height: 120, bitpix: -32, pixels }))).toMatch(
      /hold no number/,
    );
  });

  it('a file that is gone', async () => {
    const result = await measure(
      { id: 'gone.fits', path: join(folder, 'gone.fits'), sizeBytes: 1, changedMs: 0 },
      'full',
    );
    expect(result).toEqual({ reason: 'the file is no longer there' });
  });

  it('a folder', async () => {
    const result = await measure({ id: 'x', path: folder, sizeBytes: 1, changedMs: 0 }, 'full');
    expect(isMeasured(result)).toBe(false);
  });
});

describe('damaged files never throw', () => {
  const originals = [
    'rice-16',
    'rice-32',
    'gzip2-16',
    'none-16',
    'rice-float-dither1',
    'rice-16-tiles',
    'rice-16-whole',
  ].map((name) => readFileSync(`${TILES}${name}.fits.fz`));
  const plain = writeFits({
    cards: [],
    width: 60,
    height: 44,
    bitpix: 16,
    pixels: new Float64Array(60 * 44).fill(500),
  });

  const damage = fc.array(fc.record({ at: fc.nat(), byte: fc.integer({ min: 0, max: 255 }) }), {
    minLength: 1,
    maxLength: 12,
  });

  it('bytes changed anywhere, files cut anywhere', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(plain, ...originals),
        damage,
        fc.option(fc.nat()),
        async (original, changes, cut) => {
          const bytes = Buffer.from(original);
          for (const { at, byte } of changes) bytes[at % bytes.length] = byte;
          const result = await measured(cut === null ? bytes : bytes.subarray(0, cut % bytes.length));
          expect(isMeasured(result) || result.reason.length > 0).toBe(true);
        },
      ),
      runs(300),
    );
  });

  it('numbers of cards changed', async () => {
    const number = fc.oneof(
      fc.integer(),
      fc.constantFrom(0, -1, 2 ** 31, 2 ** 53, 1e300, 0.5),
      fc.double({ noNaN: true }),
    );
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(plain, ...originals), fc.nat(60), number, async (original, card, value) => {
        const bytes = Buffer.from(original);
        const cards = [...bytes.toString('latin1').matchAll(/(?<=.{8})= +-?\d+ /g)];
        const match = cards[card % cards.length];
        if (match === undefined || !Number.isFinite(value)) return;
        bytes.write(`= ${String(value).slice(0, 20).padStart(20)} `, match.index, 'latin1');
        const result = await measured(bytes);
        expect(isMeasured(result) || result.reason.length > 0).toBe(true);
      }),
      runs(300),
    );
    // Frames of 60 × 44 pixels: whatever the headers said, no great memory was asked for.
    expect(process.memoryUsage().arrayBuffers).toBeLessThan(200e6);
  });
});
