import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { isFitsName, readHeader } from '../../../src/gather/fits/index.js';
import {
  type CardInput,
  emptyPrimary,
  headerUnit,
  writeExtension,
  writeFits,
  writeFz,
} from '../../support/fits-writer.js';
import { codes, FrameFolder, frame, LIGHT, light } from './header-files.js';

const folder = new FrameFolder();

function read(name: string, bytes: Uint8Array) {
  return readHeader(folder.write(name, bytes));
}

/** The header of a file that must be readable. */
function header(name: string, bytes: Uint8Array) {
  const result = read(name, bytes);
  if (!result.ok) throw new Error(`${name} was not read: ${result.problem.what}`);
  return result.header;
}

const IMAGE = { cards: LIGHT, width: 6, height: 4, bitpix: 16 } as const;

/** Frames differ in the way they are stored; the same must be read from each. */
function expectTheLight(name: string, bytes: Uint8Array) {
  const { cards, image, notes } = header(name, bytes);
  expect(notes).toEqual([]);
  expect(image).toEqual({ bitpix: 16, axes: [6, 4] });
  expect(cards.get('NAXIS1')).toBe(6);
  expect(cards.get('DATE-OBS')).toBe('2026-10-14T19:42:10.250');
  expect(cards.get('EXPTIME')).toBe(300);
}

describe('forms of files', () => {
  it('reads a plain file', () => expectTheLight('plain.fits', writeFits(IMAGE)));
  it('reads a gzip file, whatever its name', () => {
    expectTheLight('packed.fits.gz', writeFits({ ...IMAGE, gzip: true }));
    expectTheLight('packed-all-the-same.fits', writeFits({ ...IMAGE, gzip: true }));
    expectTheLight('not-packed.fits.gz', writeFits(IMAGE));
  });
  it('reads a tile-compressed image as the image, not as the table', () => {
    const bytes = writeFz(IMAGE);
    expectTheLight('tiles.fits.fz', bytes);
    const { cards } = header('tiles.fits.fz', bytes);
    for (const keyword of ['XTENSION', 'PCOUNT', 'TFORM1', 'ZIMAGE', 'ZNAXIS1']) expect(cards.has(keyword)).toBe(false);
  });
  it('reads a tile-compressed image within gzip', () => expectTheLight('twice.fits.fz.gz', gzipSync(writeFz(IMAGE))));

  it("reads an image in an extension, with the primary's keywords under its own", () => {
    const primaryCards: CardInput[] = [
      ['TELESCOP', 'heron'],
      ['FILTER', 'none'],
    ];
    const { cards, image } = header('extension.fits', writeExtension({ ...IMAGE, primaryCards }));
    expect(image).toEqual({ bitpix: 16, axes: [6, 4] });
    expect(cards.get('TELESCOP')).toBe('heron');
    expect(cards.get('FILTER')).toBe('Ha');
  });

  it('passes over a table before the image, and its data', () => {
    const table = Buffer.concat([
      headerUnit([
        ['XTENSION', 'BINTABLE'],
        ['BITPIX', 8],
        ['NAXIS', 2],
        ['NAXIS1', 100],
        ['NAXIS2', 30],
        ['PCOUNT', 7],
        ['GCOUNT', 1],
        ['TFIELDS', 0],
      ]),
      Buffer.alloc(2 * 2880, '=END'),
    ]);
    const withImage = writeExtension(IMAGE);
    const bytes = Buffer.concat([withImage.subarray(0, 2880), table, withImage.subarray(2880)]);
    expectTheLight('table-first.fits', bytes);
    expectTheLight('table-first.fits.gz', gzipSync(bytes));
  });

  it('tells when no image is there', () => {
    const { image, notes, cards } = header('empty-primary.fits', emptyPrimary(LIGHT));
    expect(image).toBeNull();
    expect(codes(notes)).toEqual(['no-image']);
    expect(cards.get('FILTER')).toBe('Ha');
  });

  it('does not take what follows the last unit for a header', () => {
    const { notes } = header(
      'followed.fits',
      Buffer.concat([emptyPrimary(LIGHT), Buffer.alloc(5760, 'something else ')]),
    );
    expect(codes(notes)).toEqual(['no-image']);
  });

  it('reads a header of thousands of cards, and a long string across a read boundary', () => {
    const filler = (count: number): CardInput[] => Array.from({ length: count }, (_, index) => `HISTORY line ${index}`);
    const long = 'wind '.repeat(60).trimEnd();
    for (const before of [130, 131, 132, 133, 134, 135, 136, 137, 138, 139, 140, 5000]) {
      const bytes = writeFits({ ...IMAGE, cards: [...filler(before), ['NOTES', long], ...LIGHT] });
      const name = `long-${before}.fits`;
      expectTheLight(name, bytes);
      expect(header(name, bytes).cards.get('NOTES')).toBe(long);
      expectTheLight(`${name}.gz`, gzipSync(bytes));
    }
  });

  it('inflates no more of a gzip file than the header needs', () => {
    const noise = Uint16Array.from({ length: 600 * 400 }, (_, pixel) => (pixel * 40_503) % 65_521);
    const packed = writeFits({ cards: LIGHT, width: 600, height: 400, bitpix: 16, pixels: noise, gzip: true });
    packed.fill(0xff, 8192);
    expect(header('damaged-later.fits.gz', packed).cards.get('FILTER')).toBe('Ha');
  });
});

describe('bad files', () => {
  const problem = (name: string, bytes: Uint8Array) => {
    const result = read(name, bytes);
    return result.ok ? undefined : result.problem.code;
  };

  it('names zero bytes', () => expect(problem('zero.fits', Buffer.alloc(0))).toBe('empty-file'));
  it('names a text file', () =>
    expect(problem('text.fits', Buffer.from('Dear diary, the clouds came at nine.\n'))).toBe('not-fits'));
  it('names garbage', () => expect(problem('garbage.fits', Buffer.alloc(10_000, 0xa5))).toBe('not-fits'));
  it('names a file that begins with an extension', () => {
    expect(
      problem(
        'headless.fits',
        headerUnit([
          ['XTENSION', 'IMAGE   '],
          ['BITPIX', 16],
          ['NAXIS', 0],
        ]),
      ),
    ).toBe('not-fits');
  });
  it('names a header without NAXIS', () =>
    expect(
      problem(
        'no-naxis.fits',
        headerUnit([
          ['SIMPLE', true],
          ['BITPIX', 16],
        ]),
      ),
    ).toBe('damaged-header'));
  it('names a file that stops after the first card', () =>
    expect(problem('first-card.fits', light().subarray(0, 90))).toBe('truncated-header'));
  it('names gzip with a damaged stream', () => {
    const packed = writeFits({ ...IMAGE, gzip: true });
    packed.fill(0xff, 12, 60);
    expect(problem('damaged.fits.gz', packed)).toBe('damaged-gzip');
  });
  it('names gzip that stops within the first cards', () => {
    const packed = writeFits({ ...IMAGE, gzip: true });
    for (const length of [2, 5, 10, 12])
      expect(problem(`stump-${length}.fits.gz`, packed.subarray(0, length))).toMatch(
        /not-fits|damaged-gzip|truncated-header/,
      );
  });

  it('names a folder', () => {
    mkdirSync(join(folder.path, 'folder.fits'));
    expect(readHeader(join(folder.path, 'folder.fits'))).toMatchObject({ ok: false, problem: { code: 'not-a-file' } });
  });
  it('names a file that is not there, and a link to nowhere', () => {
    symlinkSync(join(folder.path, 'nowhere'), join(folder.path, 'link.fits'));
    for (const name of ['absent.fits', 'link.fits']) {
      expect(readHeader(join(folder.path, name))).toMatchObject({ ok: false, problem: { code: 'missing-file' } });
    }
  });
  it('names a link to itself', () => {
    symlinkSync(join(folder.path, 'loop.fits'), join(folder.path, 'loop.fits'));
    expect(readHeader(join(folder.path, 'loop.fits'))).toMatchObject({
      ok: false,
      problem: { code: 'unreadable-file' },
    });
  });
  it.skipIf(process.platform === 'win32')('does not wait at a named pipe', () => {
    const pipe = join(folder.path, 'pipe.fits');
    execFileSync('mkfifo', [pipe]);
    expect(readHeader(pipe)).toMatchObject({ ok: false, problem: { code: 'not-a-file' } });
  });
  it.skipIf(process.platform === 'win32')('names a file that may not be read', () => {
    const path = folder.write('secret.fits', light());
    chmodSync(folder.path, 0o755);
    chmodSync(path, 0o000);
    // The superuser may read everything: become somebody else meanwhile.
    const superuser = process.geteuid?.() === 0;
    if (superuser) process.seteuid?.(65_534);
    try {
      const result = readHeader(path);
      expect(result).toMatchObject({ ok: false, problem: { code: 'unreadable-file' } });
      expect(result.ok ? '' : result.problem.what).toContain('EACCES');
    } finally {
      if (superuser) process.seteuid?.(0);
    }
  });
});

describe('odd headers that are read all the same', () => {
  const notesOf = (name: string, bytes: Uint8Array) => codes(header(name, bytes).notes);

  it('tells a byte order mark, and other bytes before the first card', () => {
    const bom = Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), light()]);
    expect(notesOf('bom.fits', bom)).toEqual(['leading-bytes']);
    expect(header('bom.fits', bom).cards.get('FILTER')).toBe('Ha');
    expect(notesOf('leading.fits', Buffer.concat([Buffer.from('\r\n\r\n'), light()]))).toEqual(['leading-bytes']);
  });

  it('tells a missing END, and stops where pixels begin', () => {
    const pixels = Uint16Array.from({ length: 200 * 100 }, (_, pixel) => 1000 + (pixel % 97));
    const bytes = writeFits({ cards: LIGHT, width: 200, height: 100, bitpix: 16, pixels });
    bytes.fill(' ', bytes.indexOf('END     '), bytes.indexOf('END     ') + 3);
    expect(notesOf('no-end.fits', bytes)).toEqual(['missing-end']);
    expect(header('no-end.fits', bytes).cards.get('FILTER')).toBe('Ha');
    expect(header('no-end.fits', bytes).image).toEqual({ bitpix: 16, axes: [200, 100] });
  });

  it('tells a header that is longer than any is read, and reads what stands before', () => {
    const filler = Buffer.alloc(3_000_000 - (3_000_000 % 80), 'COMMENT and so on'.padEnd(80));
    const long = Buffer.concat([light().subarray(0, 11 * 80), filler, light()]);
    expect(notesOf('long.fits', long)).toEqual(['long-header']);
    expect(header('long.fits', long).cards.get('DATE-OBS')).toBe('2026-10-14T19:42:10.250');
  });

  it('tells a file that stops within its header', () => {
    const bytes = light().subarray(0, 11 * 80 + 40);
    expect(notesOf('cut.fits', bytes)).toEqual(['truncated-header']);
    expect(header('cut.fits', bytes).cards.get('DATE-OBS')).toBe('2026-10-14T19:42:10.250');
  });

  it('tells a file that stops within its pixels', () => {
    const whole = writeFits({ cards: LIGHT, width: 100, height: 100, bitpix: 16 });
    expect(notesOf('short.fits', whole.subarray(0, whole.length - 4000))).toEqual(['truncated-file']);
    expect(notesOf('without-fill.fits', whole.subarray(0, 2880 + 20_000))).toEqual([]);
    const fz = writeFz({
      cards: LIGHT,
      width: 100,
      height: 100,
      bitpix: 16,
      pixels: Uint16Array.from({ length: 10_000 }, (_, i) => (i * 7919) % 60_000),
    });
    expect(notesOf('short.fits.fz', fz.subarray(0, fz.length - 6000))).toEqual(['truncated-file']);
    expect(notesOf('by-one-byte.fits', whole.subarray(0, 2880 + 19_999))).toEqual(['truncated-file']);
  });

  it('finds END behind a card that is not text', () => {
    const cards: CardInput[] = ['\x80\x81BAD  = 1', ...LIGHT];
    expect(notesOf('one-bad-card.fits', frame(cards))).toEqual([]);
    expect(header('one-bad-card.fits', frame(cards)).cards.get('FILTER')).toBe('Ha');
  });

  it('tells a header that is not by the standard', () => {
    const bytes = headerUnit([['SIMPLE', false], ['BITPIX', 16], ['NAXIS', 1], ['NAXIS1', 0], ...LIGHT]);
    expect(notesOf('simple-f.fits', bytes)).toEqual(['nonstandard-fits', 'no-image']);
  });

  it.each([
    ['NAXIS', -1],
    ['NAXIS', 1000],
    ['NAXIS', 2.5],
    ['NAXIS', 'two'],
    ['NAXIS1', -100],
    ['NAXIS1', 1e12],
    ['NAXIS2', 'many'],
    ['BITPIX', 17],
    ['BITPIX', 'x'],
  ] as const)('tells an absurd %s of %s and keeps the other facts', (keyword, value) => {
    const shape: CardInput[] = [
      ['BITPIX', 16],
      ['NAXIS', 2],
      ['NAXIS1', 10],
      ['NAXIS2', 10],
    ];
    const { notes, image, cards } = header(
      'absurd.fits',
      headerUnit([
        ['SIMPLE', true],
        ...shape.map((card): CardInput => (card[0] === keyword ? [keyword, value] : card)),
        ...LIGHT,
      ]),
    );
    expect(notes).toMatchObject([{ code: 'absurd-size', card: keyword }]);
    expect(image).toBeNull();
    expect(cards.get('FILTER')).toBe('Ha');
  });

  it('tells a missing axis', () => {
    expect(
      header(
        'no-axis.fits',
        headerUnit([
          ['SIMPLE', true],
          ['BITPIX', 16],
          ['NAXIS', 2],
          ['NAXIS1', 10],
        ]),
      ).notes,
    ).toMatchObject([{ code: 'absurd-size', card: 'NAXIS2' }]);
  });
});

describe('names of FITS files', () => {
  it.each([
    'a.fits',
    'a.fit',
    'a.fts',
    'A.FITS',
    'a.Fit',
    'a.fits.gz',
    'a.FIT.GZ',
    'a.fits.fz',
    'a.fz',
    'x/y z/a.b.fts',
  ])('knows %s', (name) => {
    expect(isFitsName(name)).toBe(true);
  });
  it.each(['a.txt', 'fits', 'a.fits.txt', 'a.log.gz', 'a.fitsx', 'a.fits/', 'x/._a.fits', '._a.fits', 'a.fits.bz2'])(
    'does not take %s',
    (name) => {
      expect(isFitsName(name)).toBe(false);
    },
  );
});

describe('one memory for all files', () => {
  it('reads headers of any lengths one after another', () => {
    const lengths = [0, 300, 5, 5, 290, 310, 40, 1000, 0, 90, 98, 99, 100, 101, 108];
    for (const bytes of [writeFits, writeFz, writeExtension]) {
      for (const [index, length] of lengths.entries()) {
        const cards = [...Array.from({ length }, (_, card): CardInput => [`K${card}`, card]), ...LIGHT];
        expectTheLight(`length-${index}.fits`, bytes({ ...IMAGE, cards }));
      }
    }
  });

  it('lets nothing of a longer header through into a shorter one', () => {
    header(
      'longer.fits',
      light(['GAIN', 100], ...Array.from({ length: 200 }, (_, index): CardInput => [`K${index}`, index])),
    );
    writeFileSync(join(folder.path, 'shorter.fits'), frame([]));
    const shorter = readHeader(join(folder.path, 'shorter.fits'));
    expect(shorter.ok && [...shorter.header.cards.toMap().keys()]).toEqual([
      'SIMPLE',
      'BITPIX',
      'NAXIS',
      'NAXIS1',
      'NAXIS2',
      'BZERO',
      'BSCALE',
    ]);
  });
});
