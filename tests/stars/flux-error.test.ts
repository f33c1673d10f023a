/** Errors of the relative flux and of level and noise, against the scatter of drawn frames whose truth is known. */
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isMeasured, type MeasuredFrame, measureStars, relativeFlux } from '../../src/stars/index.js';
import { extended } from '../../src/model/index.js';
import { drawQuickly, scatter } from '../support/drawing/draw-stars.js';
import { writeFits } from '../support/fits-writer.js';
import { seeded } from '../support/generator/random.js';
import { tempFolder } from '../support/temp-folder.js';

const folder = tempFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SIDE = 400;
const STARS = scatter(seeded(31), { width: SIDE, height: SIDE }, 48, { from: 4_000, to: 40_000 });
/** Share of the light that each frame lets through. */
const LIGHT = [1, 1, 1, 1, 1, 1, 0.8, 0.8, 0.8, 0.5, 0.5, 0.5];
const SHAPE = { profile: { kind: 'moffat', fwhm: 3, beta: 3.5 } } as const;
const BACKGROUND = 600;
const ELECTRONS_PER_ADU = 1.5;
const READ_NOISE = 6;

let measured: MeasuredFrame[];
beforeAll(async () => {
  measured = [];
  for (const [n, light] of LIGHT.entries()) {
    const path = join(folder, `f${n}.fits`);
    const pixels = drawQuickly({
      width: SIDE,
      height: SIDE,
      stars: STARS,
      shape: SHAPE,
      clear: light,
      background: BACKGROUND,
      electronsPerAdu: ELECTRONS_PER_ADU,
      readNoise: READ_NOISE,
      seed: 400 + n,
    });
    writeFileSync(path, writeFits({ cards: [], width: SIDE, height: SIDE, bitpix: 16, pixels }));
    const one = { id: 'f', path, sizeBytes: 0, changedMs: 0, electronsPerAdu: ELECTRONS_PER_ADU };
    const result = (await measureStars([one], { by: 'full', threads: 0 })).measured.get('f');
    if (result === undefined || !isMeasured(result)) throw new Error(result?.reason ?? 'not measured');
    measured.push(result);
  }
}, 60_000);

/** Root of the mean square of deviations in units of their stated errors: 1 for true errors. */
function pull(deviations: readonly number[]): number {
  return Math.sqrt(deviations.reduce((sum, one) => sum + one * one, 0) / deviations.length);
}

const STILL = { x: 0, y: 0, rotation: 0, matched: STARS.length };

describe('errors of drawn frames', () => {
  it('of the relative flux are those by which it misses the drawn one, the pivot’s too', () => {
    const flux = relativeFlux(measured.map(({ list }) => ({ list, shift: STILL })));
    // Of twelve frames four are the best third; that it is their mean is part of the stated error.
    for (const one of flux) {
      expect(one?.uncertainty).toBeGreaterThan(0.0005);
      expect(one?.uncertainty).toBeLessThan(0.02);
    }
    const deviations = flux.map((one, n) => ((one?.ratio ?? NaN) - (LIGHT[n] ?? NaN)) / (one?.uncertainty ?? NaN));
    const all = pull(deviations);
    expect(all).toBeGreaterThan(0.5);
    expect(all).toBeLessThan(1.6);
  });

  it('leave out a frame in other units, by which all others would seem dark', () => {
    const frames = measured.map(({ list }) => ({ list, shift: STILL }));
    const flux = relativeFlux(
      frames.map((frame, n) =>
        n === 0
          ? extended(frame, {
              list: extended(frame.list, { stars: frame.list.stars.map((s) => extended(s, { flux: s.flux * 1e6 })) }),
            })
          : frame,
      ),
    );
    expect(flux[0]).toBeNull();
    expect(flux.slice(1).every((one, n) => Math.abs((one?.ratio ?? 0) - (LIGHT[n + 1] ?? 0)) < 0.05)).toBe(true);
  });

  it('of level and noise: what was drawn lies within a few of them', () => {
    const noise = Math.sqrt(BACKGROUND * ELECTRONS_PER_ADU + READ_NOISE ** 2) / ELECTRONS_PER_ADU;
    for (const { stars } of measured) {
      // The drawn values are rounded to whole ADU, which adds a variance of 1/12; wings of stars add a little.
      expect(Math.abs(stars.noise / Math.hypot(noise, 12 ** -0.5) - 1)).toBeLessThan(0.02);
      expect(stars.uncertainties?.noise).toBeGreaterThan(0);
      expect(Math.abs(stars.background - BACKGROUND)).toBeLessThan(0.5);
      expect(stars.uncertainties?.background).toBeLessThan(0.5);
    }
  });

  it('of the FWHM are those by which frames of one seeing differ', () => {
    const clear = measured.slice(0, 6).map(({ stars }) => stars);
    const mean = clear.reduce((sum, { fwhm }) => sum + (fwhm ?? NaN), 0) / clear.length;
    const all = pull(clear.map(({ fwhm, fwhmUncertainty }) => ((fwhm ?? NaN) - mean) / (fwhmUncertainty ?? NaN)));
    expect(all).toBeLessThan(1.6);
    expect(all).toBeGreaterThan(0.2);
  });
});
