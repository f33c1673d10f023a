import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { isMeasured, type MeasuredFrame, measureStars } from '../../src/stars/index.js';
import {
  brightnessOf,
  type DrawnFrame,
  type DrawnShape,
  type DrawnStar,
  drawQuickly,
  recordedFwhm,
  scatter,
  straightPath,
} from '../support/drawing/draw-stars.js';
import { writeFits } from '../support/fits-writer.js';
import { seeded } from '../support/generator/random.js';
import { tempFolder } from '../support/temp-folder.js';
import { some } from '../support/runs.js';

const folder = tempFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** 49 stars far enough from each other that their wings leave the sky alone. */
function frameOf(shape: DrawnShape, flux: { from: number; to: number }, spacing = 64): DrawnFrame {
  const side = spacing * 9;
  const stars = scatter(seeded(11), { width: side, height: side }, spacing, flux);
  return { width: side, height: side, stars, shape, background: 500, electronsPerAdu: 1.5, readNoise: 6, seed: 3 };
}

async function measured(frame: DrawnFrame): Promise<MeasuredFrame> {
  const path = join(folder, 'drawn.fits');
  const { width, height } = frame;
  writeFileSync(path, writeFits({ cards: [], width, height, bitpix: 16, pixels: drawQuickly(frame) }));
  const one = { id: 'drawn.fits', path, sizeBytes: 0, changedMs: 0, electronsPerAdu: frame.electronsPerAdu };
  const result = (await measureStars([one], { by: 'full' })).measured.get('drawn.fits');
  if (result === undefined || !isMeasured(result)) throw new Error(result?.reason ?? 'not measured');
  return result;
}

/** Median over stars of measured flux to the flux that was drawn into the same aperture. */
function fluxRatio({ list }: MeasuredFrame, { stars, shape }: DrawnFrame, radius: number): number {
  const inside = shareWithin(shape, radius);
  const ratios = list.stars.flatMap((star) => {
    const drawn: DrawnStar | undefined = stars.find((s) => Math.hypot(s.x + 1 - star.x, s.y + 1 - star.y) < 2);
    return drawn === undefined || star.snr < 30 ? [] : [star.flux / (drawn.flux * inside)];
  });
  expect(ratios.length).toBeGreaterThanOrEqual(40);
  ratios.sort((a, b) => a - b);
  return ratios[ratios.length >> 1] ?? NaN;
}

function shareWithin(shape: DrawnShape, radius: number): number {
  const light = brightnessOf(shape);
  let sum = 0;
  for (let y = -radius; y <= radius; y += 0.25)
    for (let x = -radius; x <= radius; x += 0.25) if (Math.hypot(x, y) <= radius) sum += light(x, y) / 16;
  return sum;
}

/** The outer diameter at half of the greatest brightness, averaged over pixels. */
function ringDiameter(profile: Extract<DrawnShape['profile'], { kind: 'ring' }>): number {
  const at = brightnessOf({ profile });
  const average = (radius: number): number => {
    let sum = 0;
    for (let j = -4; j <= 4; j++) for (let i = -4; i <= 4; i++) sum += at(radius + i / 9, j / 9);
    return sum;
  };
  const radii = Array.from({ length: 200 * Math.ceil(profile.outer + 4) }, (_, n) => n / 200);
  const light = radii.map(average);
  const half = Math.max(...light) / 2;
  return 2 * Math.max(...radii.filter((_, n) => (light[n] ?? 0) > half));
}

/** Difference of two axis directions, degrees. */
function apart(a: number | null, b: number): number {
  return Math.abs((((((a ?? NaN) - b + 90) % 180) + 180) % 180) - 90);
}

const FLUX = { from: 12_000, to: 150_000 };

describe('drawn frames with known truth', () => {
  const round: [string, DrawnShape['profile']][] = [
    ['Gaussian 2.6 px', { kind: 'gaussian', fwhm: 2.6 }],
    ['Gaussian 5 px', { kind: 'gaussian', fwhm: 5 }],
    ['Moffat 3.5, 3 px', { kind: 'moffat', fwhm: 3, beta: 3.5 }],
    ['Moffat 4.765, 3.5 px', { kind: 'moffat', fwhm: 3.5, beta: 4.765 }],
    ['Moffat 2.5, 2.6 px', { kind: 'moffat', fwhm: 2.6, beta: 2.5 }],
  ];
  it.each(some(round, 2))(
    'round stars, %s: FWHM within 1 %, background within 0.3 ADU, flux within 1 %',
    async (_, profile) => {
      const frame = frameOf({ profile }, FLUX, 90);
      const result = await measured(frame);
      const { stars } = result;
      const truth = recordedFwhm(profile);
      expect(Math.abs((stars.fwhm ?? NaN) / truth - 1)).toBeLessThan(0.01);
      expect(stars.elongation).toBeLessThan(1.02);
      expect(Math.abs(stars.background - 500)).toBeLessThan(0.3);
      expect(Math.abs(fluxRatio(result, frame, 3 * truth) - 1)).toBeLessThan(0.01);
      expect(stars.count).toBe(frame.stars.length);
    },
  );

  // Below a recorded width of 1.5 px the pixel is taken out: the drawn FWHM itself is the truth.
  it.each(some([1.2, 1.3], 1))('undersampled stars of %d px: FWHM within 2 %, round', async (fwhm) => {
    const { stars } = await measured(frameOf({ profile: { kind: 'gaussian', fwhm } }, FLUX));
    expect(stars.count).toBe(49);
    expect(Math.abs((stars.fwhm ?? NaN) / fwhm - 1)).toBeLessThan(0.02);
    expect(stars.elongation).toBeLessThan(1.03);
  });

  it.each(some([8, 12], 1))('bloated stars of %d px: FWHM within 1 %, all found', async (fwhm) => {
    const profile = { kind: 'moffat', fwhm, beta: 4.5 } as const;
    const { stars } = await measured(frameOf({ profile }, { from: 150_000, to: 900_000 }, 110));
    expect(stars.count).toBe(49);
    expect(Math.abs((stars.fwhm ?? NaN) / recordedFwhm(profile) - 1)).toBeLessThan(0.01);
  });

  const rings = [
    { kind: 'ring', inner: 2.5, outer: 6, soft: 0.6 },
    { kind: 'ring', inner: 5, outer: 11, soft: 0.6 },
  ] as const;
  it.each(some(rings, 1))(
    'defocused rings of $inner to $outer px: one star each, as wide as at half the height',
    async (profile) => {
      const { stars } = await measured(frameOf({ profile }, { from: 100_000, to: 900_000 }));
      expect(stars.count).toBeGreaterThanOrEqual(47);
      expect(stars.count).toBeLessThanOrEqual(49);
      expect(Math.abs((stars.fwhm ?? NaN) / ringDiameter(profile) - 1)).toBeLessThan(0.01);
    },
  );

  const long: [number, number][] = [
    [1.1, 30],
    [1.25, 77],
    [1.5, 0],
    [1.5, 120],
    [2, 165],
  ];
  it.each(some(long, 2))('elongation %d at %d°: within 0.02 and 3°, all one way', async (elongation, direction) => {
    const { stars } = await measured(
      frameOf({ profile: { kind: 'moffat', fwhm: 3.2, beta: 3.5 }, elongation, direction }, FLUX),
    );
    expect(Math.abs((stars.elongation ?? NaN) - elongation)).toBeLessThan(0.02);
    expect(apart(stars.direction, direction)).toBeLessThan(3);
    expect(stars.agreement).toBeGreaterThan(0.9);
  });

  // A uniform trail of length L on a Gaussian has the elongation √(1 + L²/12σ²) by its second moments (D).
  it.each(some([6, 3], 1))(
    'a trail of %d px on FWHM 2.6 px: elongation by second moments within 0.02',
    async (length) => {
      const fwhm = 2.6;
      const shape: DrawnShape = { profile: { kind: 'gaussian', fwhm }, path: straightPath(length, 40) };
      const { stars } = await measured(frameOf(shape, FLUX));
      const truth = Math.sqrt(1 + length ** 2 / 12 / (fwhm / Math.sqrt(8 * Math.LN2)) ** 2);
      expect(Math.abs((stars.elongation ?? NaN) - truth)).toBeLessThan(0.02);
      expect(apart(stars.direction, 40)).toBeLessThan(3);
    },
  );
});
