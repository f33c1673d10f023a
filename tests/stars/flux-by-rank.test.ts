import { describe, expect, it } from 'vitest';
import type { Star } from '../../src/model/index.js';
import { relativeFlux } from '../../src/stars/index.js';

/** Stars whose fluxes fall by a fifth from one to the next, dimmed; those below the limit are not found. */
function list(through: number, faintest: number) {
  const stars = Array.from(
    { length: 40 },
    (_, i): Star => ({
      x: 20 + 37 * i,
      y: 30 + ((53 * i) % 300),
      flux: 100_000 * 0.8 ** i * through,
      snr: 50,
      fwhm: 3,
      elongation: 1,
      direction: 0,
      halfFlux: 1.5,
      saturated: false,
    }),
  ).filter(({ flux }) => flux > faintest);
  return { list: { width: 1600, height: 400, stars }, shift: null };
}

describe('the flux of a frame with a handful of stars', () => {
  it('is that of the brightest of its group, rank by rank', () => {
    const frames = [list(1, 500), list(0.99, 500), list(1.01, 500), list(0.02, 900)];
    expect(frames[3]?.list.stars).toHaveLength(4);
    expect(relativeFlux(frames)[3]?.ratio).toBeCloseTo(0.02, 3);
  });

  it.each([
    [[0], [1, 2, 4, 5]],
    [
      [0, 2],
      [1, 3],
    ],
    [[0, 1, 3], [2]],
  ])('is that of the same stars where the brightest %j left the field with a dither', (gone, left) => {
    const [best] = [list(1, 500)];
    const moved = (star: Star): Star => ({ ...star, x: star.x - 12, y: star.y + 7, flux: 0.97 * star.flux });
    const seen = best.list.stars.filter((_, i) => left.includes(i) && !gone.includes(i)).map(moved);
    const frame = { ...best, list: { ...best.list, stars: seen } };
    expect(relativeFlux([best, list(0.99, 500), list(1.01, 500), frame])[3]?.ratio).toBeCloseTo(0.96, 2);
  });

  it('is not known where its group has few stars itself, or it has none', () => {
    const poor = [list(0.02, 900), list(0.02, 900), list(0.02, 900)];
    expect(relativeFlux(poor)).toEqual([null, null, null]);
    const dark = [list(1, 500), list(1, 500), list(1, 500), list(0.001, 900)];
    expect(relativeFlux(dark)[3]).toBeNull();
  });
});
