import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { headerHash, keywordTable, readHeader, readHeaderFrames } from '../../../src/gather/fits/index.js';
import { type CardInput, writeFits, writeFz } from '../../support/fits-writer.js';
import { codes, FrameFolder, frame, LIGHT, light, lightWithout, NOW_MS } from './header-files.js';

const folder = new FrameFolder();

describe('reading many frames', () => {
  it('keeps the order of the paths and reads on behind bad files', async () => {
    const { frames, warnings } = await folder.read({
      'b/2.fits': light(),
      'b/empty.fits': Buffer.alloc(0),
      'a/1.fits': light(['GAIN', 1]),
      'notes.fits': Buffer.from('not a frame'),
      'c/3.fits': writeFits({ cards: LIGHT, width: 4, height: 3, bitpix: 16, gzip: true }),
    });
    expect(frames.map(({ file }) => file)).toEqual(['b/2.fits', 'a/1.fits', 'c/3.fits']);
    expect(warnings).toMatchObject([
      { code: 'empty-file', source: { file: 'b/empty.fits' } },
      { code: 'not-fits', source: { file: 'notes.fits' } },
    ]);
    for (const { message, source } of warnings) expect(message.startsWith(`${source?.file}: `)).toBe(true);
  });

  it('makes one counted warning of the same oddity in many files', async () => {
    const odd = frame([...lightWithout('EXPTIME'), ['EXPTIME', 'NaN']]);
    const { warnings } = await folder.read({ '1.fits': odd, '2.fits': odd, '3.fits': odd });
    expect(warnings).toMatchObject([
      { code: 'unreadable-number', count: 3, source: { file: '1.fits', card: 'EXPTIME' } },
      { code: 'missing-exposure-time', count: 3 },
    ]);
    expect(warnings[0]?.message).toContain('and in 2 more files, the last 3.fits');
    const two = await folder.read({ '1.fits': odd, '2.fits': odd });
    expect(two.warnings[0]?.message).toContain('and in 2.fits');
  });

  it('names every file that could not be read', async () => {
    const { warnings } = await folder.read({ '1.fits': Buffer.alloc(0), '2.fits': Buffer.alloc(0) });
    expect(warnings.map(({ source }) => source?.file)).toEqual(['1.fits', '2.fits']);
  });

  it('reports progress up to the end, and lets others run meanwhile', async () => {
    folder.write('many.fits', light());
    const progress: number[] = [];
    let turns = 0;
    let reading = true;
    const others = (async () => {
      while (reading) {
        await new Promise((resolve) => setImmediate(resolve));
        turns++;
      }
    })();
    const total = 12_000;
    const { frames } = await readHeaderFrames(folder.path, Array(total).fill('many.fits'), {
      nowMs: NOW_MS,
      onProgress: (done, of) => {
        expect(of).toBe(total);
        progress.push(done);
      },
    });
    reading = false;
    await others;
    expect(frames).toHaveLength(total);
    expect(progress.at(-1)).toBe(total);
    expect(progress.length).toBeGreaterThan(2);
    expect(progress).toEqual(progress.toSorted((a, b) => a - b));
    expect(turns).toBeGreaterThan(2);
  });

  it('reads nothing of nothing', async () => {
    expect(await folder.read({})).toEqual({ frames: [], warnings: [] });
  });
});

describe('keywords from a rig file', () => {
  it('come before the usual ones', async () => {
    const bytes = light(['FILTNAME', 'OIII'], ['ESO INS FOCU POS', 12.5], ['FOCUSPOS', 99]);
    const { frame: read } = await folder.readOne(bytes, {
      extra: { filter: ['filtname'], focusPosition: ['HIERARCH ESO INS FOCU POS'] },
    });
    expect(read).toMatchObject({ filter: 'OIII', focusPosition: 12.5 });
  });

  it('leave the usual ones where a header has them not', async () => {
    expect((await folder.readOne(light(), { extra: { filter: ['FILTNAME'] } })).frame?.filter).toBe('Ha');
  });

  it('pair up as right ascension and declination', async () => {
    const bytes = light(['RA', 1], ['DEC', 1], ['MYRA', 13.25], ['MYDEC', 56.5]);
    const { frame: read } = await folder.readOne(bytes, {
      extra: { rightAscension: ['MYRA'], declination: ['MYDEC'] },
    });
    expect(read).toMatchObject({ pointing: { raDeg: 13.25, decDeg: 56.5 } });
    const onlyOne = await folder.readOne(bytes, { extra: { rightAscension: ['MYRA'] } });
    expect(onlyOne.frame).toMatchObject({ pointing: { raDeg: 1, decDeg: 1 } });
    expect(codes(onlyOne.warnings)).toEqual(['unpaired-keywords']);
  });

  it('under a meaning that does not exist are reported', async () => {
    const { warnings } = await folder.readOne(light(), {
      extra: Object.fromEntries([
        ['colour', ['FILTER']],
        ['filter', ['FILTER']],
      ]),
    });
    expect(warnings).toMatchObject([{ code: 'unknown-meaning' }]);
    expect(warnings[0]?.message).toContain("'colour'");
  });

  it('can be kept as they stand', async () => {
    const { frame: read } = await folder.readOne(light(['CAMID', 'left'], ['SERIES', 4], ['NONE', null]), {
      keep: ['CAMID', 'SERIES', 'NONE', 'ABSENT', 'FILTER'],
    });
    expect(read?.cards).toEqual({ CAMID: 'left', SERIES: 4, FILTER: 'Ha' });
  });
});

describe('header hash', () => {
  const IMAGE = { cards: LIGHT, width: 6, height: 4, bitpix: 16 } as const;
  const hashes = async (files: Readonly<Record<string, Uint8Array>>, options = {}) =>
    (await folder.read(files, options)).frames.map((read) => read.headerHash);

  it('is SHA-256 in hex', async () => {
    expect((await hashes({ 'a.fits': light() }))[0]).toMatch(/^[0-9a-f]{64}$/);
  });

  it('is taken over keywords and values line by line, which must not change while archives hold it', async () => {
    const identity = 'DATE-OBS=2026-10-14T19:42:10.250\nEXPTIME=300\nFILTER=Ha\nGAIN=100\n4×3';
    expect((await hashes({ 'a.fits': light(['GAIN', 100]) }))[0]).toBe(
      createHash('sha256').update(identity).digest('hex'),
    );
  });

  it('stays when a frame is moved, renamed, compressed or written again', async () => {
    const rewritten = [
      ...LIGHT.filter((card) => card[0] !== 'EXPTIME'),
      'EXPTIME = 300.0 / seconds',
      "OBSERVER= 'somebody'",
      'COMMENT solved later',
    ];
    const all = await hashes({
      'one.fits': writeFits(IMAGE),
      'other/two.fit': writeFits(IMAGE),
      'packed.fits.gz': writeFits({ ...IMAGE, gzip: true }),
      'tiles.fits.fz': writeFz(IMAGE),
      'rewritten.fits': writeFits({ ...IMAGE, cards: rewritten }),
    });
    expect(new Set(all).size).toBe(1);
  });

  it('differs with date, exposure time, filter, instrument and size', async () => {
    const change = (keyword: string, value: string | number): CardInput[] => [
      ...lightWithout(keyword),
      [keyword, value],
    ];
    const all = await hashes({
      'a.fits': frame(LIGHT),
      'b.fits': frame(change('DATE-OBS', '2026-10-14T19:42:10.251')),
      'c.fits': frame(change('EXPTIME', 299)),
      'd.fits': frame(change('FILTER', 'OIII')),
      'e.fits': light(['INSTRUME', 'mono 26 MP']),
      'f.fits': writeFits(IMAGE),
    });
    expect(new Set(all).size).toBe(all.length);
  });

  it('does not depend on extra keywords', async () => {
    const files = { 'a.fits': light(['FILTNAME', 'OIII']) };
    expect(await hashes(files)).toEqual(await hashes(files, { extra: { filter: ['FILTNAME'] }, keep: ['OBSERVER'] }));
  });

  it('is the same when every card is read', async () => {
    for (const bytes of [light(), frame(lightWithout('DATE-OBS')), writeFz(IMAGE)]) {
      const result = readHeader(folder.write('a.fits', bytes));
      expect(result.ok && headerHash(result.header, keywordTable())).toBe((await hashes({ 'a.fits': bytes }))[0]);
    }
  });

  it('of undated frames comes from all known cards', async () => {
    const undated = lightWithout('DATE-OBS');
    const all = await hashes({
      'a.fits': frame(undated),
      'b.fits': frame([...undated, ['HFR', 1.9]]),
      'c.fits': frame([...undated, ['HFR', 2.1]]),
    });
    expect(new Set(all).size).toBe(3);
  });

  it('of a copied frame is the same: duplicates are detectable', async () => {
    const { frames, warnings } = await folder.read({ 'a.fits': light(), 'copy of a.fits': light() });
    expect(frames[0]?.headerHash).toBe(frames[1]?.headerHash);
    expect(codes(warnings)).toEqual([]);
  });
});
