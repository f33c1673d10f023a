import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { isMeasured, type MeasuredFrame, measureStars, relativeFlux } from '../../src/stars/index.js';
import { type DrawnFrame, drawQuickly, recordedFwhm, scatter } from '../support/drawing/draw-stars.js';
import { writeFits } from '../support/fits-writer.js';
import { seeded } from '../support/generator/random.js';
import { tempFolder } from '../support/temp-folder.js';

const folder = tempFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SIDE = 512;
const STARS = scatter(seeded(21), { width: SIDE, height: SIDE }, 64, { from: 15_000, to: 150_000 });
const FRAME: DrawnFrame = {
  width: SIDE,
  height: SIDE,
  stars: STARS,
  shape: { profile: { kind: 'gaussian', fwhm: 3 } },
  background: 500,
  electronsPerAdu: 1.5,
  readNoise: 6,
  seed: 5,
};

async function measured(pixels: ArrayLike<number>, bitpix: 8 | 16 = 16): Promise<MeasuredFrame> {
  const path = join(folder, 'frame.fits');
  writeFileSync(path, writeFits({ cards: [], width: SIDE, height: SIDE, bitpix, pixels }));
  const one = { id: 'frame', path, sizeBytes: 0, changedMs: 0, electronsPerAdu: 1.5 };
  const result = (await measureStars([one], { by: 'full', threads: 0 })).measured.get('frame');
  if (result === undefined || !isMeasured(result)) throw new Error(result?.reason ?? 'not measured');
  return result;
}

describe('difficult frames', () => {
  it('a satellite across the frame is no star, and leaves the widths alone', async () => {
    const pixels = drawQuickly(FRAME);
    // Between the rows of stars, rising slowly.
    for (let x = 0; x < SIDE; x++)
      for (let j = -3; j <= 3; j++) {
        const y = Math.round(30 + 0.02 * x) + j;
        pixels[y * SIDE + x] = (pixels[y * SIDE + x] ?? 0) + Math.round(4000 * Math.exp(-(j * j) / 2));
      }
    const { stars } = await measured(pixels);
    expect(stars.count).toBe(STARS.length);
    expect(Math.abs((stars.fwhm ?? NaN) / recordedFwhm(FRAME.shape.profile) - 1)).toBeLessThan(0.01);
  });

  it('two touching stars are separated, and spoil no median', async () => {
    const beside = STARS.slice(0, 8).map(({ x, y, flux }) => ({ x: x + 8, y: y + 2, flux: flux * 0.8 }));
    const { stars } = await measured(drawQuickly({ ...FRAME, stars: [...STARS, ...beside] }));
    expect(stars.count).toBe(STARS.length + 8);
    expect(Math.abs((stars.fwhm ?? NaN) / recordedFwhm(FRAME.shape.profile) - 1)).toBeLessThan(0.01);
    expect(stars.elongation).toBeLessThan(1.02);
  });

  it('a gradient leaves widths and counts alone', async () => {
    const { stars } = await measured(drawQuickly({ ...FRAME, gradient: 150 }));
    expect(stars.count).toBe(STARS.length);
    expect(Math.abs((stars.fwhm ?? NaN) / recordedFwhm(FRAME.shape.profile) - 1)).toBeLessThan(0.01);
    expect(Math.abs(stars.background - 500)).toBeLessThan(10);
  });

  it('a tilted sensor shows in the zones', async () => {
    const dense = { ...FRAME, stars: scatter(seeded(22), FRAME, 46, { from: 30_000, to: 150_000 }) };
    const left = drawQuickly(dense);
    const right = drawQuickly({ ...dense, shape: { profile: { kind: 'gaussian', fwhm: 4.5 } } });
    const { stars } = await measured(left.map((value, at) => (at % SIDE < 300 ? value : (right[at] ?? 0))));
    const row = stars.zones?.slice(3, 6) ?? [];
    expect(Math.abs((row[0] ?? NaN) / recordedFwhm({ kind: 'gaussian', fwhm: 3 }) - 1)).toBeLessThan(0.02);
    expect(Math.abs((row[2] ?? NaN) / recordedFwhm({ kind: 'gaussian', fwhm: 4.5 }) - 1)).toBeLessThan(0.02);
  });

  it('a field of few stars has zones too, each with its error', async () => {
    // Four stars a zone, some of one alone; wider to the right by a fifth.
    const few = scatter(seeded(23), { width: SIDE, height: SIDE }, 80, { from: 30_000, to: 150_000 });
    const left = drawQuickly({ ...FRAME, stars: few });
    const right = drawQuickly({ ...FRAME, stars: few, shape: { profile: { kind: 'gaussian', fwhm: 3.6 } } });
    const { stars } = await measured(left.map((value, at) => (at % SIDE < 360 ? value : (right[at] ?? 0))));
    const { zones = [], zoneUncertainties = [] } = stars;
    expect(zones).toHaveLength(9);
    for (const [zone, width] of zones.entries()) {
      const truth = recordedFwhm({ kind: 'gaussian', fwhm: zone % 3 === 2 ? 3.6 : 3 });
      const error = zoneUncertainties[zone] ?? NaN;
      expect(error).toBeGreaterThan(0.001);
      expect(error).toBeLessThan(0.1);
      expect(Math.abs((width ?? NaN) - truth)).toBeLessThan(4 * error);
    }
  });

  it('BITPIX 8', async () => {
    const pixels = drawQuickly({ ...FRAME, background: 1000, full: 8000 }).map((v) =>
      Math.min(255, Math.round(v / 25)),
    );
    const { stars } = await measured(pixels, 8);
    expect(Math.abs(stars.background - 40)).toBeLessThan(0.5);
    expect(stars.count).toBe(STARS.length);
    // As drawn: √(1000·1.5 + 6²) / 1.5 ADU, 25 to a step, and 1/12 for rounding to steps.
    const drawn = Math.hypot(Math.sqrt(1000 * 1.5 + 36) / 1.5 / 25, 12 ** -0.5);
    expect(Math.abs(stars.noise / drawn - 1)).toBeLessThan(0.04);
  });

  it('hot pixels and particles’ tracks by the thousand are hardly ever stars, and leave the widths alone', async () => {
    const random = seeded(77);
    const pixels = drawQuickly(FRAME);
    const add = (x: number, y: number, value: number): void => {
      const at = (Math.floor(y + SIDE) % SIDE) * SIDE + (Math.floor(x + SIDE) % SIDE);
      pixels[at] = Math.round((pixels[at] ?? 0) + value);
    };
    for (let n = 0; n < 2000; n++) add(SIDE * random.next(), SIDE * random.next(), 300 + 20_000 * random.next());
    for (let n = 0; n < 40; n++) {
      const [x, y, angle] = [SIDE * random.next(), SIDE * random.next(), Math.PI * random.next()];
      for (let k = 0; k < 4 + 20 * random.next(); k++)
        add(x + k * Math.cos(angle), y + k * Math.sin(angle), 800 + 8000 * random.next());
    }
    const { stars } = await measured(pixels);
    expect(Math.abs(stars.count - STARS.length)).toBeLessThan(0.2 * STARS.length);
    expect(Math.abs((stars.fwhm ?? NaN) / recordedFwhm(FRAME.shape.profile) - 1)).toBeLessThan(0.01);
  });

  // Half of these were hot pixels by their neighbours' mean alone: an eighth of the light that four of them share.
  it.each([
    ['in the middle of a pixel', 0],
    ['a quarter off', 0.25],
  ])('stars of 1.1 px, as binned ones are, are no hot pixels: %s', async (_, off) => {
    const stars = STARS.map(({ x, y, flux }) => ({ x: Math.round(x) + off, y: Math.round(y) + off, flux }));
    const shape = { profile: { kind: 'gaussian', fwhm: 1.1 } } as const;
    const { stars: found } = await measured(drawQuickly({ ...FRAME, stars, shape }));
    expect(found.count).toBeGreaterThan(0.9 * STARS.length);
  });

  it('hot pixels side by side, equally bright, are no stars', async () => {
    const random = seeded(79);
    const pixels = drawQuickly(FRAME);
    for (let n = 0; n < 400; n++) {
      const at = random.whole(SIDE, SIDE * (SIDE - 1));
      const value = 500 + 15_000 * random.next();
      for (const place of [at, n % 2 === 0 ? at + 1 : at + SIDE])
        pixels[place] = Math.round((pixels[place] ?? 0) + value);
    }
    // A few beside a star, or beside each other, have a star's shape.
    expect(Math.abs((await measured(pixels)).stars.count - STARS.length)).toBeLessThan(0.2 * STARS.length);
  });

  it.each([
    ['a mono sensor', {}],
    ['a wider star', { shape: { profile: { kind: 'gaussian', fwhm: 4.5 } } } as const],
  ])('hot pixels in the wings are no light of the stars: %s', async (_, more) => {
    // One pixel in 250, as a warm sensor has: two in every aperture, each other ones after a dither.
    const random = seeded(78);
    const hot = Array.from({ length: 1050 }, () => [random.whole(0, SIDE * SIDE - 1), 300 + 20_000 * random.next()]);
    const lists = [];
    for (const n of [0, 1, 2, 3]) {
      const stars = STARS.map(({ x, y, flux }) => ({ x: x + 5 * n, y: y + 3 * n, flux: flux * (n === 2 ? 0.5 : 1) }));
      const pixels = drawQuickly({ ...FRAME, ...more, stars, seed: 40 + n });
      for (const [at = 0, value = 0] of hot) pixels[at] = Math.round((pixels[at] ?? 0) + value);
      const { list } = await measured(pixels);
      lists.push({ list, shift: { x: 5 * n, y: 3 * n, rotation: 0, matched: 36 } });
    }
    const flux = relativeFlux(lists).map((one) => one?.ratio ?? NaN);
    for (const [n, share] of [1, 1, 0.5, 1].entries())
      expect(Math.abs((flux[n] ?? NaN) / share - 1)).toBeLessThan(0.04);
  });

  it('a cloud dims a group through frames that are shifted and turned upside down', async () => {
    const shares = [1, 1, 0.4, 1];
    const lists = [];
    for (const [n, share] of shares.entries()) {
      const stars = STARS.map(({ x, y, flux }) =>
        n === 3 ? { x: 511 - x, y: 511 - y, flux } : { x: x + 3 * n, y, flux: flux * share },
      );
      const { list } = await measured(drawQuickly({ ...FRAME, stars, seed: 30 + n }));
      // Places count from 1: 511 − x from 0 is 513 − x from 1.
      const shift =
        n === 3 ? { x: 513, y: 513, rotation: 180, matched: 36 } : { x: 3 * n, y: 0, rotation: 0, matched: 36 };
      lists.push({ list, shift });
    }
    const flux = relativeFlux(lists);
    for (const [n, share] of shares.entries()) expect(Math.abs((flux[n]?.ratio ?? NaN) / share - 1)).toBeLessThan(0.01);
  });
});
