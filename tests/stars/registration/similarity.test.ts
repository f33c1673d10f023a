import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Similarity } from '../../../src/model/index.js';
import {
  compose,
  fitSimilarity,
  inverse,
  shiftOf,
  similarityOf,
  transform,
  wrapDegrees,
} from '../../../src/stars/registration/similarity.js';
import { SENSOR } from './drawn-sky.js';

const similarities: fc.Arbitrary<Similarity> = fc.record({
  x: fc.double({ min: -5000, max: 5000, noNaN: true }),
  y: fc.double({ min: -5000, max: 5000, noNaN: true }),
  rotation: fc.double({ min: -179.9, max: 180, noNaN: true }),
  scale: fc.double({ min: 0.2, max: 5, noNaN: true }),
  mirrored: fc.boolean(),
});
const points = fc.record({
  x: fc.double({ min: 1, max: 6248, noNaN: true }),
  y: fc.double({ min: 1, max: 4176, noNaN: true }),
});

function expectNear(a: { x: number; y: number }, b: { x: number; y: number }): void {
  expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeLessThan(1e-6);
}

describe('similarities of the plane', () => {
  it('are undone by their inverse, from either side', () => {
    fc.assert(
      fc.property(similarities, points, (t, p) => {
        expectNear(transform(inverse(t), transform(t, p)), p);
        expectNear(transform(compose(t, inverse(t)), p), p);
        expectNear(transform(compose(inverse(t), t), p), p);
      }),
    );
  });

  it('composed do what both do one after the other', () => {
    fc.assert(
      fc.property(similarities, similarities, points, (s, t, p) => {
        expectNear(transform(compose(s, t), p), transform(s, transform(t, p)));
      }),
    );
  });

  it('turn +x towards +y: a quarter turn takes (1, 0) to (0, 1), a mirror (0, 1) to (0, −1)', () => {
    const quarter = { x: 0, y: 0, rotation: 90, scale: 1, mirrored: false };
    expectNear(transform(quarter, { x: 1, y: 0 }), { x: 0, y: 1 });
    expectNear(transform({ ...quarter, rotation: 0, mirrored: true }, { x: 0, y: 1 }), { x: 0, y: -1 });
  });

  it('are found again by least squares through points they moved', () => {
    fc.assert(
      fc.property(similarities, fc.array(points, { minLength: 3, maxLength: 20 }), (t, from) => {
        fc.pre(from.some((p) => Math.hypot(p.x - from[0]!.x, p.y - from[0]!.y) > 100));
        const to = from.map((p) => transform(t, p));
        const found = fitSimilarity(
          {
            count: from.length,
            fromX: Float64Array.from(from, (p) => p.x),
            fromY: Float64Array.from(from, (p) => p.y),
            toX: Float64Array.from(to, (p) => p.x),
            toY: Float64Array.from(to, (p) => p.y),
            weight: new Float64Array(from.length).fill(2),
          },
          t.mirrored,
        );
        expect(found).not.toBeNull();
        for (const p of from) if (found) expectNear(transform(found, p), transform(t, p));
      }),
    );
  });

  it('have no fit through one place, or without weight', () => {
    const same = new Float64Array([5, 5, 5]);
    const pairs = { count: 3, fromX: same, fromY: same, toX: same, toY: same };
    expect(fitSimilarity({ ...pairs, weight: new Float64Array([1, 1, 1]) }, false)).toBeNull();
    expect(fitSimilarity({ ...pairs, weight: new Float64Array(3) }, false)).toBeNull();
  });

  it('as a rigid shift agree at the centre of the field', () => {
    const t = { x: 12, y: -7, rotation: 179.9, scale: 1.0003, mirrored: false };
    const shift = shiftOf(t, 40, SENSOR);
    const centre = { x: 3124.5, y: 2088.5 };
    expectNear(transform(similarityOf(shift), centre), transform(t, centre));
    expect(shift.rotation).toBe(179.9);
  });

  it('keep directions above −180° and up to 180°', () => {
    expect([181, -180, 540, -181, 359].map(wrapDegrees)).toEqual([-179, 180, 180, 179, -1]);
  });
});
