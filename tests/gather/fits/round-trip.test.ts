import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readHeader, readHeaderFrames } from '../../../src/gather/fits/index.js';
import type { Warning } from '../../../src/model/warning.js';
import { type CardInput, writeExtension, writeFits, writeFz } from '../../support/fits-writer.js';
import { FrameFolder, NOW_MS, onlyValue } from './header-files.js';
import { runs } from '../../support/runs.js';

const folder = new FrameFolder();

/** Keywords that no part of the file's structure uses. */
const keyword = fc.stringMatching(/^X[A-Z0-9_-]{1,7}$/);
const hierarchical = fc.stringMatching(/^XX[A-Z]{0,8} [A-Z0-9_-]{1,10}( [A-Z0-9_-]{1,10})?$/);
const printable = fc.stringMatching(/^[ -~]{0,300}$/).filter((text) => !text.endsWith('&'));
const quotes = fc.stringMatching(/^['& /a]{0,200}$/).filter((text) => !/&\s*$/.test(text));
const number = fc.oneof(
  fc.integer(),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: -1e6, max: 1e6, noNaN: true }),
);
const value = fc.oneof(printable, quotes, number, fc.boolean(), fc.constant(null));
const comment = fc.option(fc.stringMatching(/^[ -~]{0,40}$/), { nil: undefined });
const card = fc
  .tuple(fc.oneof(keyword, hierarchical), value, comment)
  .map(([name, content, note]): CardInput => (note === undefined ? [name, content] : [name, content, note]));
const cardList = fc.uniqueArray(card, { maxLength: 150, selector: (input) => input[0] });
const image = fc.record({
  cards: cardList,
  width: fc.integer({ min: 1, max: 40 }),
  height: fc.integer({ min: 1, max: 40 }),
  bitpix: fc.constantFrom(8, 16, 32, 64, -32, -64),
});

/** What a value is after writing and reading: trailing spaces do not count, and −0 is 0. */
function readBack(content: string | number | boolean | null) {
  return typeof content === 'string' ? content.replace(/ +$/, '') : Object.is(content, -0) ? 0 : content;
}

function read(bytes: Uint8Array) {
  const result = readHeader(folder.write('a.fits', bytes));
  if (!result.ok) throw new Error(result.problem.what);
  return result.header;
}

describe('what the writer writes the reader reads', () => {
  it('for any cards, sizes and kinds of pixels, plain and in gzip, in an extension and in tiles', () => {
    fc.assert(
      fc.property(image, (input) => {
        const packed = { ...input, gzip: true };
        for (const bytes of [writeFits(input), writeFits(packed), writeExtension(input), writeFz(input)]) {
          const { cards, image: shape, notes } = read(bytes);
          expect(notes).toEqual([]);
          expect(shape).toEqual({ bitpix: input.bitpix, axes: [input.width, input.height] });
          for (const written of input.cards) {
            if (typeof written !== 'string')
              expect([written[0], cards.get(written[0])]).toEqual([written[0], readBack(written[1])]);
          }
        }
      }),
      runs(150),
    );
  });

  it('in whole blocks of 2880 bytes', () => {
    fc.assert(
      fc.property(image, (input) => {
        for (const bytes of [writeFits(input), writeExtension(input), writeFz(input)])
          expect(bytes.length % 2880).toBe(0);
      }),
      runs(50),
    );
  });

  it('for numbers in any column and notation', () => {
    const notation = fc.constantFrom(
      (x: number) => String(x),
      (x: number) => x.toExponential(),
      (x: number) => x.toExponential().toUpperCase(),
      (x: number) => x.toExponential().replace('e', 'D'),
      (x: number) => x.toExponential(16),
      (x: number) => (x > 0 ? `+${x}` : String(x)),
    );
    fc.assert(
      fc.property(
        number,
        notation,
        fc.integer({ min: 0, max: 40 }),
        fc.constantFrom('', ' / note', '/note'),
        (x, write, indent, tail) => {
          const written = write(x);
          // Nearest double of the text: the language's own conversion is the judge. Zero may carry either sign.
          expect(onlyValue(`NUMBER  = ${' '.repeat(indent)}${written}${tail}`.slice(0, 80))).satisfy(
            (read: unknown) => read === Number(written.replace('D', 'e')),
          );
        },
      ),
    );
  });
});

/** How often each oddity of each card stands in warnings. */
function countsOf(warnings: readonly Warning[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const { code, source, count = 1 } of warnings) {
    const key = `${code} ${source?.card}`;
    counts[key] = (counts[key] ?? 0) + count;
  }
  return counts;
}

describe('frames read one after another', () => {
  it('are read as each would be alone, though cards that repeat are parsed once', async () => {
    const few = <T>(...values: T[]) => fc.constantFrom(...values);
    const header = fc.record(
      {
        'DATE-OBS': few('2026-10-14T19:42:10.250', '2026-10-14T19:47:31.500'),
        EXPTIME: few(300, 120.5),
        FILTER: few('Ha', "O'III", 'a long name '.repeat(9)),
        GAIN: few(100, 0, null),
        OBJECT: few('NGC 281', 'M 33 &', ''),
        'CCD-TEMP': few(-10, -9.9),
        'ESO INS FOCU POS': few(1.5, 2.5),
        XBINNING: few<number | string>(1, 2, 'two'),
        XPIXSZ: few(3.76, 7.52, -1),
        TELESCOP: few('heron', 'wren'),
      },
      { requiredKeys: ['DATE-OBS'] },
    );
    const options = { nowMs: NOW_MS, extra: { focusPosition: ['ESO INS FOCU POS'] }, keep: ['FILTER'] };
    await fc.assert(
      fc.asyncProperty(fc.array(header, { minLength: 2, maxLength: 6 }), async (headers) => {
        const names = headers.map((cards, index) => {
          folder.write(`${index}.fits`, writeFits({ cards: Object.entries(cards), width: 2, height: 2, bitpix: 8 }));
          return `${index}.fits`;
        });
        const { frames, warnings } = await readHeaderFrames(folder.path, names, options);
        const alone = await Promise.all(names.map((name) => readHeaderFrames(folder.path, [name], options)));
        expect(frames).toEqual(alone.flatMap((one) => one.frames));
        expect(countsOf(warnings)).toEqual(countsOf(alone.flatMap((one) => one.warnings)));
      }),
      runs(300),
    );
  });
});

describe('nothing in a file can break the reading', () => {
  const readAsFrame = async (bytes: Uint8Array) => {
    folder.write('fuzz.fits', bytes);
    const { frames, warnings } = await readHeaderFrames(folder.path, ['fuzz.fits'], {
      nowMs: NOW_MS,
      keep: ['FILTER'],
    });
    // Either read or reported.
    expect(frames.length + warnings.length).toBeGreaterThan(0);
    for (const { exposure, exposureSeconds } of frames) {
      if (exposure) expect(exposure.endMs).toBeGreaterThanOrEqual(exposure.startMs);
      if (exposureSeconds !== undefined) expect(exposureSeconds).toBeGreaterThanOrEqual(0);
    }
    readHeader(`${folder.path}/fuzz.fits`);
  };

  it('whatever the bytes', async () => {
    await fc.assert(fc.asyncProperty(fc.uint8Array({ maxLength: 9000 }), readAsFrame), runs(200));
  });

  it('whatever follows the first card, and whatever is in a gzip stream', async () => {
    const first = Buffer.from('SIMPLE  =                    T'.padEnd(80));
    const gzip = Buffer.from([0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 3]);
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(first, gzip), fc.uint8Array({ maxLength: 9000 }), async (head, rest) => {
        await readAsFrame(Buffer.concat([head, rest]));
      }),
      runs(200),
    );
  });

  it('whatever text stands in the cards that are read', async () => {
    const names = fc.constantFrom(
      'DATE-OBS',
      'DATE-END',
      'TIME-OBS',
      'MJD-OBS',
      'EXPTIME',
      'TIMESYS',
      'RA',
      'DEC',
      'OBJCTRA',
      'OBJCTDEC',
      'SITELAT',
      'SITELONG',
      'IMAGETYP',
      'OBJECT',
      'EQUINOX',
      'RADESYS',
      'CTYPE1',
      'CRVAL1',
      'XBINNING',
      'XPIXSZ',
      'CCD-TEMP',
      'NAXIS',
      'NAXIS1',
      'NAXIS3',
      'BITPIX',
      'PCOUNT',
      'GCOUNT',
      'ZIMAGE',
      'XTENSION',
      'END',
    );
    const numeric = fc.stringMatching(/^[-+0-9:.TZ/eEdD ',NSEWhms]{0,30}$/);
    const written = fc
      // biome-ignore lint/suspicious/noControlCharactersInRegex: cards hold any byte here
      .tuple(names, fc.oneof(numeric, fc.stringMatching(/^[\x00-\xff]{0,70}$/)))
      .map(([name, text]) => `${name.padEnd(8)}= ${text}`.slice(0, 80));
    await fc.assert(
      fc.asyncProperty(fc.array(written, { maxLength: 40 }), async (cards) => {
        await readAsFrame(writeFits({ cards, width: 2, height: 2, bitpix: 8 }));
      }),
      runs(400),
    );
  });

  it('however long the text of a card is continued', async () => {
    const cards: CardInput[] = [
      '1'.repeat(200_000),
      '('.repeat(200_000),
      'dark'.repeat(50_000),
      '1:'.repeat(100_000),
      'N'.repeat(200_000),
      ' '.repeat(200_000),
    ].flatMap((text): CardInput[] => [
      ['EXPTIME', `${text}x`],
      ['TIMESYS', `${text}x`],
      ['IMAGETYP', `${text}x`],
      ['RA', `${text}x`],
      ['SITELAT', `${text}x`],
      ['DATE-OBS', `${text}x`],
    ]);
    for (const card of cards)
      await readAsFrame(writeFits({ cards: [card, ['DEC', 1], ['SITELONG', 1]], width: 2, height: 2, bitpix: 8 }));
  });

  it('wherever a good file is cut, or a byte of it changed', async () => {
    const good = writeFz({
      cards: [
        ['DATE-OBS', '2026-10-14T19:42:10.250'],
        ['EXPTIME', 300],
        ['NOTES', 'long '.repeat(40)],
      ],
      width: 20,
      height: 20,
      bitpix: 16,
    });
    await fc.assert(
      fc.asyncProperty(fc.nat(good.length), fc.nat(good.length - 1), fc.nat(255), async (length, at, byte) => {
        const bad = Buffer.from(good.subarray(0, length));
        if (at < bad.length) bad[at] = byte;
        await readAsFrame(bad);
      }),
      runs(300),
    );
  });
});
