/** Frames that drawn ones seldom are: bent trails, masks, planes of colour, nebulae, cloud. Truth: what was drawn. */
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { type FrameMeasurement, isMeasured, type MeasuredFrame, measureStars } from '../../src/stars/index.js';
import { type DrawnFrame, drawQuickly, recordedFwhm, scatter, straightPath } from '../support/drawing/draw-stars.js';
import { writeFits } from '../support/fits-writer.js';
import { seeded } from '../support/generator/random.js';
import { some } from '../support/runs.js';
import { tempFolder } from '../support/temp-folder.js';

const folder = tempFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SIDE = 512;
const GAUSSIAN = { kind: 'gaussian', fwhm: 3 } as const;
const FRAME: DrawnFrame = {
  width: SIDE,
  height: SIDE,
  stars: scatter(seeded(5), { width: SIDE, height: SIDE }, 64, { from: 20_000, to: 150_000 }),
  shape: { profile: GAUSSIAN },
  background: 500,
  electronsPerAdu: 1.5,
  readNoise: 6,
  seed: 9,
};

async function answer(bytes: Buffer, electronsPerAdu = FRAME.electronsPerAdu): Promise<FrameMeasurement> {
  const path = join(folder, 'rare.fits');
  writeFileSync(path, bytes);
  const one = { id: 'rare', path, sizeBytes: 0, changedMs: 0, electronsPerAdu };
  const result = (await measureStars([one], { by: 'full', threads: 0 })).measured.get('rare');
  if (result === undefined) throw new Error('not measured');
  return result;
}

async function measured(
  frame: DrawnFrame,
  cards: Parameters<typeof writeFits>[0]['cards'] = [],
): Promise<MeasuredFrame> {
  const { width, height } = frame;
  const result = await answer(writeFits({ cards, width, height, bitpix: 16, pixels: drawQuickly(frame) }));
  if (!isMeasured(result)) throw new Error(result.reason);
  return result;
}

describe('rare frames', () => {
  it('a trail with a corner in it is one star, long, and wider than a straight one is across', async () => {
    const along = straightPath(5, 0).map((step) => ({ ...step, share: step.share / 2 }));
    // The second leg goes up from where the first ends.
    const up = straightPath(5, 90).map((step) => ({ x: step.x + 2.5, y: step.y + 2.5, share: step.share / 2 }));
    const bent = [...along, ...up];
    const { stars } = await measured({ ...FRAME, shape: { profile: GAUSSIAN, path: bent } });
    expect(stars.count).toBe(FRAME.stars.length);
    // Second moments of two legs of 5 px (D): variances 5.79 and 2.66 px² along and across the diagonal, a/b 1.48.
    expect(stars.elongation).toBeGreaterThan(1.3);
    expect(Math.abs((stars.direction ?? NaN) - 45)).toBeLessThan(3);
    expect(stars.agreement).toBeGreaterThan(0.9);
  });

  it.each(some([1.2, 1.4, 1.6, 1.8], 2))('FWHM %d px: within 2 %%, round, with its error', async (fwhm) => {
    const profile = { kind: 'gaussian', fwhm } as const;
    const { stars } = await measured({ ...FRAME, shape: { profile } });
    // Recorded widths below 1.5 px are given without the pixel, above 1.8 px with it; between, something between.
    const recorded = recordedFwhm(profile);
    expect(stars.fwhm).toBeGreaterThan(fwhm * 0.98);
    expect(stars.fwhm).toBeLessThan(recorded * 1.02);
    if (recorded < 1.5) expect(Math.abs((stars.fwhm ?? NaN) / fwhm - 1)).toBeLessThan(0.02);
    if (recorded > 1.8) expect(Math.abs((stars.fwhm ?? NaN) / recorded - 1)).toBeLessThan(0.02);
    expect(stars.elongation).toBeLessThan(1.03);
    expect(stars.fwhmUncertainty).toBeLessThan(0.02);
  });

  it('nebulosity, wide and bright, is no star and leaves the widths alone', async () => {
    const pixels = drawQuickly(FRAME);
    for (let y = 0; y < SIDE; y++)
      for (let x = 0; x < SIDE; x++)
        pixels[y * SIDE + x] =
          (pixels[y * SIDE + x] ?? 0) + Math.round(400 * Math.exp(-((x - 250) ** 2 + (y - 220) ** 2) / (2 * 110 ** 2)));
    const result = await answer(writeFits({ cards: [], width: SIDE, height: SIDE, bitpix: 16, pixels }));
    if (!isMeasured(result)) throw new Error(result.reason);
    expect(result.stars.count).toBe(FRAME.stars.length);
    expect(Math.abs((result.stars.fwhm ?? NaN) / recordedFwhm(GAUSSIAN) - 1)).toBeLessThan(0.01);
  });

  it('pure cloud: no star, the level known to 1 ADU in 9000, nothing said of widths', async () => {
    const { stars } = await measured({ ...FRAME, stars: [], background: 9000 });
    expect([stars.count, stars.fwhm, stars.elongation, stars.direction]).toEqual([0, null, null, null]);
    expect(Math.abs(stars.background - 9000)).toBeLessThan(1);
    expect(stars.uncertainties?.background).toBeLessThan(1);
  });

  it('three planes of colour: the second, green, is measured', async () => {
    const flat = drawQuickly({ ...FRAME, stars: [], background: 300 });
    const green = drawQuickly(FRAME);
    const pixels = [...flat, ...green, ...flat];
    const cube = writeFits({ cards: [['NAXIS3', 3]], width: SIDE, height: 3 * SIDE, bitpix: 16, pixels });
    // The writer makes planes only; the header says that the rows are three of them.
    const header = cube
      .subarray(0, 2880)
      .toString('latin1')
      .replace(/NAXIS {3}= +2/, (card) => card.replace(/2$/, '3'))
      .replace(/NAXIS2 {2}= +1536/, (card) => card.replace('1536', ' 512'));
    cube.write(header, 0, 'latin1');
    const result = await answer(cube);
    if (!isMeasured(result)) throw new Error(result.reason);
    expect(result.stars.count).toBe(FRAME.stars.length);
    expect(Math.abs(result.stars.background - 500)).toBeLessThan(0.3);
  });

  it('BLANK pixels are no numbers: a masked corner changes nothing elsewhere', async () => {
    const pixels = drawQuickly(FRAME);
    for (let y = 0; y < 60; y++) for (let x = 0; x < 60; x++) pixels[y * SIDE + x] = 0;
    const bytes = writeFits({ cards: [['BLANK', -32768]], width: SIDE, height: SIDE, bitpix: 16, pixels });
    const result = await answer(bytes);
    if (!isMeasured(result)) throw new Error(result.reason);
    const outside = FRAME.stars.filter(({ x, y }) => x > 70 || y > 70).length;
    expect(result.stars.count).toBeGreaterThanOrEqual(outside - 1);
    expect(result.stars.count).toBeLessThanOrEqual(FRAME.stars.length);
    expect(Math.abs(result.stars.background - 500)).toBeLessThan(0.5);
    expect(Math.abs((result.stars.fwhm ?? NaN) / recordedFwhm(GAUSSIAN) - 1)).toBeLessThan(0.01);
  });

  it('NaN and infinite pixels of a float frame count as missing', async () => {
    const pixels = Float64Array.from(drawQuickly(FRAME));
    for (let i = 0; i < 400; i++)
      pixels[(i * 653) % pixels.length] = i % 2 === 0 ? Number.NaN : Number.POSITIVE_INFINITY;
    const result = await answer(writeFits({ cards: [], width: SIDE, height: SIDE, bitpix: -32, pixels }));
    if (!isMeasured(result)) throw new Error(result.reason);
    expect(Math.abs(result.stars.background - 500)).toBeLessThan(0.5);
    expect(Math.abs((result.stars.fwhm ?? NaN) / recordedFwhm(GAUSSIAN) - 1)).toBeLessThan(0.01);
  });

  it('errors of the figures agree with repeated drawing: a spread over ten frames of at most 2.5 times what they say', async () => {
    const frames = [];
    const shape = { profile: GAUSSIAN, elongation: 1.3, direction: 60 };
    for (let seed = 1; seed <= 10; seed++) {
      frames.push((await measured({ ...FRAME, shape, seed })).stars);
    }
    const spread = (values: readonly (number | null)[]): number => {
      const known = values.map((value) => value ?? NaN);
      const middle = known.reduce((a, b) => a + b) / known.length;
      return Math.sqrt(known.reduce((a, b) => a + (b - middle) ** 2, 0) / (known.length - 1));
    };
    const typical = (values: readonly (number | null | undefined)[]): number =>
      values.map((value) => value ?? NaN).reduce((a, b) => a + b) / values.length;
    // Ten frames give a spread to a quarter; medians over a mesh that was smoothed are surer than its cells say.
    expect(spread(frames.map(({ fwhm }) => fwhm))).toBeLessThan(2.5 * typical(frames.map((f) => f.fwhmUncertainty)));
    expect(spread(frames.map(({ halfFlux }) => halfFlux))).toBeLessThan(
      2.5 * typical(frames.map((f) => f.uncertainties?.halfFlux)),
    );
    expect(spread(frames.map(({ direction }) => direction))).toBeLessThan(
      2.5 * typical(frames.map((f) => f.uncertainties?.direction)),
    );
    expect(typical(frames.map((f) => f.uncertainties?.direction))).toBeLessThan(2);
    expect(spread(frames.map(({ background }) => background))).toBeLessThan(
      2.5 * typical(frames.map((f) => f.uncertainties?.background)),
    );
  });
});
