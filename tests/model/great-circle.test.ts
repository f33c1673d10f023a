import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { circularMedianDeg, normaliseDegrees, separationDeg } from '../../src/model/index.js';

const longitude = fc.double({ min: -720, max: 720, noNaN: true });
const latitude = fc.double({ min: -90, max: 90, noNaN: true });

test('normalised degrees lie in [0, 360) and keep the direction', () => {
  expect(normaliseDegrees(-90)).toBe(270);
  expect(normaliseDegrees(720)).toBe(0);
  fc.assert(
    fc.property(longitude, (deg) => {
      const normal = normaliseDegrees(deg);
      expect(normal).toBeGreaterThanOrEqual(0);
      expect(normal).toBeLessThan(360);
      expect(Math.cos((normal * Math.PI) / 180)).toBeCloseTo(Math.cos((deg * Math.PI) / 180), 9);
    }),
  );
});

describe('separation', () => {
  test('keeps tiny angles that an arc cosine loses', () => {
    const milliarcsecond = 1 / 3.6e6;
    expect(separationDeg(100, 40, 100, 40 + milliarcsecond) * 3.6e6).toBeCloseTo(1, 4);
    expect(separationDeg(10, 0, 190, milliarcsecond)).toBeCloseTo(180 - milliarcsecond, 12);
  });

  test('is symmetric, between 0° and 180°, and nothing from a place to itself', () => {
    fc.assert(
      fc.property(longitude, latitude, longitude, latitude, (a, b, c, d) => {
        const there = separationDeg(a, b, c, d);
        expect(there).toBeGreaterThanOrEqual(0);
        expect(there).toBeLessThanOrEqual(180);
        expect(separationDeg(c, d, a, b)).toBeCloseTo(there, 9);
        expect(separationDeg(a, b, a, b)).toBeCloseTo(0, 12);
      }),
    );
  });
});

test('the median of directions minds no step from 360° to 0°', () => {
  expect(circularMedianDeg([359, 1, 2])).toBeCloseTo(1, 12);
  expect(circularMedianDeg([10, 20, 30])).toBeCloseTo(20, 12);
  expect(circularMedianDeg([])).toBeNaN();
});
