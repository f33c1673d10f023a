import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  cutOuts,
  defaultCacheFolder,
  type FrameToMeasure,
  isMeasured,
  measureStars,
  relativeFlux,
  stretchedAlike,
  wholePicture,
} from '../../src/stars/index.js';
import { type DrawnFrame, drawQuickly, scatter } from '../support/drawing/draw-stars.js';
import { writeFits } from '../support/fits-writer.js';
import { seeded } from '../support/generator/random.js';
import { tempFolder } from '../support/temp-folder.js';

const folder = tempFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SIZE = { width: 640, height: 512 };
const STARS = scatter(seeded(5), SIZE, 64, { from: 8_000, to: 150_000 });

function drawn(changes: Partial<DrawnFrame> = {}): Float64Array {
  return drawQuickly({
    ...SIZE,
    stars: STARS,
    shape: { profile: { kind: 'gaussian', fwhm: 3 } },
    background: 500,
    electronsPerAdu: 1.5,
    readNoise: 6,
    seed: 3,
    ...changes,
  });
}

function write(
  name: string,
  pixels: ArrayLike<number>,
  bitpix: 8 | 16 | 32 | -32 | -64 = 16,
  gzip = false,
): FrameToMeasure {
  const path = join(folder, name);
  writeFileSync(path, writeFits({ cards: [], ...SIZE, bitpix, pixels, gzip }));
  const { size, mtimeMs } = statSync(path);
  return { id: name, path, sizeBytes: size, changedMs: mtimeMs };
}

async function one(frame: FrameToMeasure, by: 'full' | 'strips' = 'full') {
  const result = (await measureStars([frame], { by })).measured.get(frame.id);
  if (result === undefined || !isMeasured(result)) throw new Error(result?.reason ?? 'missing');
  return result;
}

describe('every kind of pixels gives the same stars', () => {
  let pixels: Float64Array;
  beforeAll(() => {
    pixels = drawn();
  });

  it.each([32, -32, -64] as const)('BITPIX %d as BITPIX 16', async (bitpix) => {
    const a = await one(write('a.fits', pixels));
    const b = await one(write('b.fits', pixels, bitpix));
    expect(b.stars.count).toBe(a.stars.count);
    expect(b.stars.background).toBeCloseTo(a.stars.background, 0);
    expect(Math.abs((b.stars.fwhm ?? 0) / (a.stars.fwhm ?? 1) - 1)).toBeLessThan(0.003);
  });

  it('gzip as plain, to the last digit', async () => {
    const { stars: plain } = await one(write('plain.fits', pixels));
    expect((await one(write('packed.fits.gz', pixels, 16, true))).stars).toEqual(plain);
  });

  it('binning: sizes in sensor pixels, places as stored', async () => {
    const frame = write('binned.fits', pixels);
    const a = await one(frame);
    const b = await one({ ...frame, binning: { x: 2, y: 2 } });
    expect(b.stars.fwhm).toBeCloseTo(2 * (a.stars.fwhm ?? 0), 6);
    expect(b.list.stars[0]?.x).toBe(a.list.stars[0]?.x);
  });

  it('a colour mosaic: the same widths, on green', async () => {
    const mono = await one(write('mono.fits', pixels));
    // Red and blue see half of the sky and of the stars.
    const mosaic = pixels.map((value, at) => {
      const isGreen = ((at % SIZE.width) + Math.floor(at / SIZE.width)) % 2 === 1;
      return isGreen ? value : Math.round(value / 2);
    });
    const colour = await one({ ...write('colour.fits', mosaic), bayerPattern: 'RGGB' });
    expect(Math.abs((colour.stars.fwhm ?? 0) / (mono.stars.fwhm ?? 1) - 1)).toBeLessThan(0.01);
    expect(Math.abs(colour.stars.background - 500)).toBeLessThan(0.5);
    expect(Math.abs(colour.stars.count - mono.stars.count)).toBeLessThanOrEqual(2);
  });
});

describe('skies without stars', () => {
  it('a cap on: none found, the level known', async () => {
    const { stars } = await one(write('dark.fits', drawn({ stars: [], background: 20 })));
    expect(stars).toMatchObject({ count: 0, fwhm: null, elongation: null, saturated: 0 });
  });

  it('hot pixels, alone and in pairs, and particle tracks are no stars', async () => {
    const pixels = drawn({ stars: [] });
    const random = seeded(8);
    for (let hot = 0; hot < 300; hot++) {
      const at = random.whole(5, SIZE.height - 5) * SIZE.width + random.whole(9, SIZE.width - 9);
      pixels[at] = 3000 + random.next() * 50_000;
      if (hot % 3 === 0) pixels[at + 1] = pixels[at] ?? 0;
      if (hot % 50 === 0) for (let step = 0; step < 8; step++) pixels[at + step] = 20_000;
    }
    expect((await one(write('hot.fits', pixels))).stars.count).toBeLessThanOrEqual(12);
  });

  it('a constant frame and a burnt-out one', async () => {
    expect((await one(write('flat.fits', new Float64Array(640 * 512).fill(1000)))).stars.count).toBe(0);
    const { stars } = await one(write('burnt.fits', new Float64Array(640 * 512).fill(65_535)));
    expect(stars).toMatchObject({ count: 0, saturated: 1 });
  });
});

describe('the night', () => {
  it('is remembered: a second run reads the cache, a changed file or a damaged entry is measured again', async () => {
    const frame = write('night.fits', drawn());
    const cacheFolder = join(folder, 'cache');
    const first = await measureStars([frame], { by: 'full', cacheFolder });
    const seen: number[] = [];
    const second = await measureStars([frame], {
      by: 'full',
      cacheFolder,
      onProgress: ({ bytes }) => seen.push(bytes),
    });
    expect(second).toEqual(first);
    expect(Math.max(...seen)).toBe(0);

    const [version = ''] = readdirSync(cacheFolder);
    const [entry = ''] = readdirSync(join(cacheFolder, version));
    const path = join(cacheFolder, version, entry);
    writeFileSync(path, readFileSync(path).subarray(0, 100));
    const third = await measureStars([frame], { by: 'full', cacheFolder, onProgress: ({ bytes }) => seen.push(bytes) });
    expect(third).toEqual(first);
    expect(Math.max(...seen)).toBe(frame.sizeBytes);
  });

  it('goes on without a cache folder that can be written, and says so', async () => {
    const frame = write('unkept.fits', drawn());
    const blocked = join(folder, 'blocked');
    writeFileSync(blocked, 'a file stands where the folder should be');
    const { measured, warnings } = await measureStars([frame], { by: 'full', cacheFolder: blocked });
    expect(measured.size).toBe(1);
    expect(warnings.map(({ code }) => code)).toEqual(['star-cache-unwritable']);
  });

  it('can be interrupted: what was measured is kept, the rest is reported', async () => {
    const frames = [0, 1, 2, 3].map((n) => ({ ...write(`n${n}.fits`, drawn({ seed: n })), id: `n${n}` }));
    const stop = new AbortController();
    const { measured, warnings } = await measureStars(frames, {
      by: 'strips',
      signal: stop.signal,
      onProgress: ({ done }) => done === 2 && stop.abort(),
    });
    expect(measured.size).toBe(2);
    expect(warnings.map(({ code, count }) => [code, count])).toEqual([['stars-interrupted', 2]]);
  });

  it('in threads: the same as in the calling thread, and an interruption ends them', async () => {
    // The build makes the thread's program a start file of its own; tests run after a build.
    const threadProgram = fileURLToPath(new URL('../../dist/star-worker.js', import.meta.url));
    expect(existsSync(threadProgram)).toBe(true);
    const frames = [0, 1, 2, 3, 4].map((n) => ({ ...write(`t${n}.fits`, drawn({ seed: n })), id: `t${n}` }));
    const alone = await measureStars(frames, { by: 'full', threads: 0 });
    const together = await measureStars(frames, { by: 'full', threads: 2, threadProgram });
    expect(new Map([...together.measured].sort())).toEqual(new Map([...alone.measured].sort()));

    const stop = new AbortController();
    const { measured } = await measureStars(frames, {
      by: 'full',
      threads: 2,
      threadProgram,
      signal: stop.signal,
      onProgress: ({ done }) => done === 1 && stop.abort(),
    });
    expect(measured.size).toBeGreaterThanOrEqual(1);
    expect(measured.size).toBeLessThan(5);
  });

  it('names frames that cannot be measured, by reason', async () => {
    const path = join(folder, 'bad.fits');
    writeFileSync(path, 'no frame');
    mkdirSync(join(folder, 'sub'), { recursive: true });
    const bad = { id: 'bad.fits', path, sizeBytes: 8, changedMs: 0 };
    const { warnings } = await measureStars([bad, { ...bad, id: 'worse.fits' }], { by: 'full' });
    expect(warnings).toEqual([
      {
        code: 'stars-not-measured',
        message: 'Stars not measured in bad.fits and 1 more frame: it does not begin like a FITS file.',
        count: 2,
      },
    ]);
  });

  it('compares the light of its frames through the same stars, wherever they lie', async () => {
    const shares = [1, 0.98, 0.5, 1.02, 0.25];
    const frames = await Promise.all(
      shares.map(async (share, n) => {
        const stars = STARS.map(({ x, y, flux }) => ({ x: x + 7 * n, y: y - 3 * n, flux: flux * share }));
        return one(write(`light${n}.fits`, drawn({ stars, seed: n })));
      }),
    );
    const flux = relativeFlux(frames.map(({ list }) => ({ list, shift: null }))).map((one) => one?.ratio ?? null);
    // The best third of five frames is two: 1.02 and 1.
    shares.forEach((share, n) => expect(Math.abs((flux[n] ?? NaN) / (share / 1.01) - 1)).toBeLessThan(0.01));
  });
});

describe('pictures', () => {
  it('cut the same stars out, and scale a whole frame down', async () => {
    const frame = write('picture.fits', drawn());
    const { list } = await one(frame);
    const cut = await cutOuts(frame, [...list.stars.slice(0, 8), { x: 1, y: 1 }], 31);
    if ('reason' in cut) throw new Error(cut.reason);
    const [stamps = []] = stretchedAlike([cut]);
    expect(stamps).toHaveLength(9);
    expect(stamps[8]).toBeNull();
    // One range for all: the brightest star's top is white, a fainter star's is not.
    const tops = stamps.slice(0, 8).map((stamp) => Math.max(...(stamp?.grey ?? [])));
    expect(tops[0]).toBeGreaterThan(240);
    expect(tops[7]).toBeLessThan(tops[0] ?? 0);
    for (const stamp of stamps.slice(0, 8)) expect(stamp?.grey[0]).toBeLessThan(60);
    // Beside a frame through which a quarter of the light came, the range is still that of the brighter one.
    const dimmed = {
      ...cut,
      stamps: cut.stamps.map((stamp) => stamp?.map((value) => 500 + (value - 500) / 4) ?? null),
    };
    const [, fainter = []] = stretchedAlike([cut, dimmed]);
    const top = Math.max(...(fainter[0]?.grey ?? []));
    // Half as bright by the square root; the brightest pixel stands somewhat above what is drawn white.
    expect(top).toBeGreaterThan(120);
    expect(top).toBeLessThan(165);
    const whole = await wholePicture(frame, 160);
    if ('reason' in whole) throw new Error(whole.reason);
    expect([whole.width, whole.height]).toEqual([160, 128]);
    expect(Math.max(...whole.grey)).toBe(255);
  });
});

describe('the cache folder', () => {
  it('follows the system', () => {
    expect(defaultCacheFolder({ XDG_CACHE_HOME: '/c' }, 'linux', '/home/a')).toBe('/c/nightledger/stars');
    expect(defaultCacheFolder({ XDG_CACHE_HOME: 'relative' }, 'linux', '/home/a')).toBe(
      '/home/a/.cache/nightledger/stars',
    );
    expect(defaultCacheFolder({}, 'darwin', '/Users/a')).toBe('/Users/a/Library/Caches/nightledger/stars');
    const windows = (env: { LOCALAPPDATA?: string }): string => defaultCacheFolder(env, 'win32', 'C:\\Users\\a');
    expect(windows({ LOCALAPPDATA: 'D:\\cache' })).toBe('D:\\cache\\nightledger\\Cache\\stars');
    expect(windows({})).toBe('C:\\Users\\a\\AppData\\Local\\nightledger\\Cache\\stars');
    expect(windows({ LOCALAPPDATA: 'relative' })).toBe(windows({}));
  });
});
