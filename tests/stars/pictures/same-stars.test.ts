import { describe, expect, it } from 'vitest';
import type { Star } from '../../../src/model/index.js';
import { sameStars } from '../../../src/stars/pictures/same-stars.js';

function starAt(x: number, y: number, more: Partial<Star> = {}): Star {
  return {
    x,
    y,
    flux: 1000,
    snr: 100,
    fwhm: 2.5,
    halfFlux: 1.5,
    elongation: 1.05,
    direction: 0,
    saturated: false,
    ...more,
  };
}

const SIZE = { width: 1000, height: 800 };
const FIELD = [starAt(300, 200), starAt(500, 400), starAt(700, 300), starAt(200, 600), starAt(5, 5), starAt(640, 610)];

describe('the same stars in two frames', () => {
  it('are found by both shifts, through a meridian flip', () => {
    const here = { list: { ...SIZE, stars: FIELD }, shift: { x: 4, y: -3, rotation: 0, matched: 50 } };
    const there = { list: { ...SIZE, stars: [] }, shift: { x: 1001, y: 801, rotation: 180, matched: 50 } };
    // By hand: p = here − (4, −3); turned by 180°: (1001 − p.x, 801 − p.y).
    expect(sameStars(here, there, 8, 15).map(([, place]) => [Math.round(place.x), Math.round(place.y)])).toEqual([
      [705, 598],
      [505, 398],
      [305, 498],
      [805, 198],
      [365, 188],
    ]);
  });

  it('are found by the commonest offset where a frame could not be laid on its field', () => {
    const many = Array.from({ length: 12 }, (_, i) => starAt(100 + 67 * i, 120 + ((i * 131) % 560)));
    const moved = many.map((star) => ({ ...star, x: star.x + 12, y: star.y - 9 }));
    const pairs = sameStars(
      { list: { ...SIZE, stars: many }, shift: null },
      { list: { ...SIZE, stars: moved }, shift: null },
      8,
      15,
    );
    expect(pairs).toHaveLength(8);
    for (const [here, there] of pairs) {
      expect(there.x - here.x).toBeCloseTo(12, 6);
      expect(there.y - here.y).toBeCloseTo(-9, 6);
    }
  });

  it('leave out saturated stars, stars at the edge and stars too near to others', () => {
    const still = { x: 0, y: 0, rotation: 0, matched: 50 };
    const stars = [starAt(300, 200, { saturated: true }), starAt(4, 300), starAt(500, 400), starAt(508, 400)];
    const frame = { list: { ...SIZE, stars }, shift: still };
    expect(sameStars(frame, frame, 8, 15)).toHaveLength(1);
  });

  it('are none where nothing is common', () => {
    const lone = { list: { ...SIZE, stars: [starAt(300, 300)] }, shift: null };
    expect(sameStars(lone, lone, 8, 15)).toEqual([]);
  });
});
