import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { FrameStars } from '../../src/model/index.js';
import { isMeasured, measureStars } from '../../src/stars/index.js';
import { withoutReflections } from '../../src/stars/always-doubled.js';
import { type DrawnStar, drawQuickly, scatter } from '../support/drawing/draw-stars.js';
import { light } from '../support/events.js';
import { writeFits } from '../support/fits-writer.js';
import { seeded } from '../support/generator/random.js';
import { tempFolder } from '../support/temp-folder.js';

const folder = tempFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SIDE = 384;
const STARS = scatter(seeded(8), { width: SIDE, height: SIDE }, 40, { from: 12_000, to: 120_000 });

async function measured(stars: readonly DrawnStar[]): Promise<FrameStars> {
  const shape = { profile: { kind: 'gaussian', fwhm: 3 } } as const;
  const sky = { background: 400, electronsPerAdu: 1.2, readNoise: 4, seed: 3 };
  const pixels = drawQuickly({ width: SIDE, height: SIDE, stars, shape, ...sky });
  const path = join(folder, 'frame.fits');
  writeFileSync(path, writeFits({ cards: [], width: SIDE, height: SIDE, bitpix: 16, pixels }));
  const one = { id: 'frame', path, sizeBytes: 0, changedMs: 0, electronsPerAdu: 1.2 };
  const result = (await measureStars([one], { by: 'full', threads: 0 })).measured.get('frame');
  if (result === undefined || !isMeasured(result)) throw new Error('not measured');
  return result.stars;
}

/** The truth: this share of every star's light is at another place. */
const moved = (share: number, x: number, y: number): DrawnStar[] =>
  STARS.flatMap((star) => [
    { ...star, flux: star.flux * (1 - share) },
    { x: star.x + x, y: star.y + y, flux: star.flux * share },
  ]);

describe('stars that stand twice', () => {
  it.each([
    [0.3, 7, -5],
    [0.06, -14, 9],
    [0.5, 11, 6],
    [0.8, -6, -4],
  ])('with a share of %s at (%s, %s) px are found there', async (share, x, y) => {
    const { doubled } = await measured(moved(share, x, y));
    const fainter = Math.min(share, 1 - share);
    expect(Math.abs((doubled?.share ?? NaN) - fainter)).toBeLessThan(0.3 * fainter);
    // From the brighter image to the fainter one; of equal ones either.
    const sign = share > 0.5 ? -1 : share === 0.5 ? Math.sign(doubled?.x ?? NaN) : 1;
    expect(Math.abs((doubled?.x ?? NaN) - sign * x)).toBeLessThan(1);
    expect(Math.abs((doubled?.y ?? NaN) - sign * y)).toBeLessThan(1);
  });

  it('are not seen in single stars, nor in a field of close pairs that point anywhere', async () => {
    expect((await measured(STARS)).doubled).toBeUndefined();
    const random = seeded(17);
    const pairs = STARS.flatMap((star) => {
      const angle = 2 * Math.PI * random.next();
      const beside = { x: star.x + 9 * Math.cos(angle), y: star.y + 9 * Math.sin(angle), flux: star.flux * 0.6 };
      return [star, beside];
    });
    expect((await measured(pairs)).doubled).toBeUndefined();
  });

  it('in most frames at one place and as bright are a reflection, elsewhere a dither', () => {
    const frames = Array.from({ length: 8 }, (_, i) => light('wren', `21:0${i}:00`, 50));
    const list = { width: SIDE, height: SIDE, stars: [] };
    const second = (x: number, share: number) => ({ x, y: 4, share, significance: 20 });
    const seen = (doubled: (i: number) => ReturnType<typeof second>) =>
      withoutReflections(
        frames.map((frame, i) => ({ frame, measured: { stars: { doubled: doubled(i) } as FrameStars, list } })),
      ).filter(({ measured: { stars } }) => stars.doubled !== undefined).length;
    expect(seen((i) => second(12 + 0.1 * i, 0.04))).toBe(0);
    expect(seen((i) => second(3 * i, 0.04))).toBe(8);
    expect(seen((i) => second(12, 0.01 * 1.6 ** i))).toBe(8);
  });
});
