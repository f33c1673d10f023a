/** Triangles as a plain search finds and sorts them. */
import { describe, expect, it } from 'vitest';
import type { StarList } from '../../../src/stars/registration/star-list.js';
import { allTriangles, neighbourTriangles, sortByShape } from '../../../src/stars/registration/triangles.js';
import { placesOf, SENSOR } from './drawn-sky.js';

function listOf(seed: number, count: number): StarList {
  const places = placesOf(seed, count, SENSOR);
  return {
    count,
    x: Float64Array.from(places, ({ x }) => x),
    y: Float64Array.from(places, ({ y }) => y),
    sigma: new Float64Array(count).fill(0.05),
  };
}

describe('triangles', () => {
  it('are sorted by their middle side, each with its corners, equal ones as they stood', () => {
    // Four stars in a square, twice: triangles of one shape.
    const x = Float64Array.from([0, 300, 0, 310, 1000, 1300, 1000, 1310]);
    const y = Float64Array.from([0, 0, 400, 420, 0, 0, 400, 420]);
    for (const list of [listOf(1, 24), { count: 8, x, y, sigma: new Float64Array(8).fill(0.05) }]) {
      const found = allTriangles(list, 30);
      const sorted = sortByShape(found);
      const places = [...found.middle.subarray(0, found.count).keys()].sort(
        (p, q) => (found.middle[p] ?? NaN) - (found.middle[q] ?? NaN) || p - q,
      );
      expect(found.count).toBeGreaterThan(10);
      expect([...sorted.middle]).toEqual(places.map((place) => found.middle[place]));
      expect([...sorted.longest]).toEqual(places.map((place) => found.longest[place]));
      expect([...sorted.corners]).toEqual(
        places.flatMap((place) => [...found.corners.subarray(3 * place, 3 * place + 3)]),
      );
    }
  });

  it('of neighbours are those of each star with the nearest of the others, once each', () => {
    const list = listOf(2, 40);
    const { x, y } = list;
    const square = (i: number, k: number): number =>
      ((x[i] ?? NaN) - (x[k] ?? NaN)) ** 2 + ((y[i] ?? NaN) - (y[k] ?? NaN)) ** 2;
    const found = neighbourTriangles(list, 40, 5);
    const names = Array.from({ length: found.count }, (_, t) =>
      [...found.corners.subarray(3 * t, 3 * t + 3)].sort((a, b) => a - b).join(),
    );
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) {
      const corners = name.split(',').map(Number);
      const isOfNeighbours = corners.some((star) => {
        const near = [...x.keys()].filter((i) => i !== star).sort((a, b) => square(a, star) - square(b, star));
        return corners.every((one) => one === star || near.slice(0, 5).includes(one));
      });
      expect(isOfNeighbours, name).toBe(true);
    }
    expect(names.length).toBeGreaterThan(100);
  });
});
