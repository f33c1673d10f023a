import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { limitAt } from '../../src/sky/index.js';

const at = (horizon: readonly (readonly [number, number])[], azimuthDeg: number, minimumAltitudeDeg = -90): number =>
  limitAt({ horizon, minimumAltitudeDeg }, azimuthDeg);

describe('the limit at an azimuth', () => {
  test('is the minimum altitude when there is no horizon', () => {
    expect(at([], 123, 25)).toBe(25);
  });

  test('runs straight between the points', () => {
    const horizon = [
      [90, 10],
      [180, 30],
    ] as const;
    expect(at(horizon, 90)).toBe(10);
    expect(at(horizon, 135)).toBe(20);
    expect(at(horizon, 180)).toBe(30);
  });

  test('runs straight over north too, from the last point to the first', () => {
    const horizon = [
      [10, 20],
      [350, 10],
    ] as const;
    expect(at(horizon, 355)).toBeCloseTo(12.5, 12);
    expect(at(horizon, 0)).toBeCloseTo(15, 12);
    expect(at(horizon, 5)).toBeCloseTo(17.5, 12);
    expect(at(horizon, 365)).toBeCloseTo(17.5, 12);
    expect(at(horizon, -5)).toBeCloseTo(12.5, 12);
  });

  test('takes a ring that is closed by hand at 360°', () => {
    expect(
      at(
        [
          [0, 10],
          [360, 20],
        ],
        270,
      ),
    ).toBeCloseTo(17.5, 12);
    expect(
      at(
        [
          [0, 10],
          [180, 30],
          [360, 10],
        ],
        0,
      ),
    ).toBe(10);
  });

  test('steps at a wall, which is two points at one azimuth', () => {
    const wall = [
      [0, 5],
      [90, 5],
      [90, 40],
      [120, 40],
      [120, 5],
    ] as const;
    expect(at(wall, 89.9999)).toBeCloseTo(5, 3);
    expect(at(wall, 90)).toBe(40);
    expect(at(wall, 119.9999)).toBeCloseTo(40, 3);
    expect(at(wall, 120)).toBe(5);
    expect(at(wall, 240)).toBe(5);
  });

  test('is level for one point', () => {
    expect(at([[200, 12]], 0)).toBe(12);
    expect(at([[200, 12]], 200)).toBe(12);
  });

  test('is the minimum altitude where the horizon is lower', () => {
    expect(
      at(
        [
          [0, 10],
          [180, 30],
        ],
        0,
        25,
      ),
    ).toBe(25);
    expect(
      at(
        [
          [0, 10],
          [180, 30],
        ],
        180,
        25,
      ),
    ).toBe(30);
  });

  test('never leaves the range of the points', () => {
    const points = fc.array(fc.tuple(fc.integer({ min: 0, max: 359 }), fc.integer({ min: 0, max: 60 })), {
      minLength: 1,
      maxLength: 12,
    });
    fc.assert(
      fc.property(points, fc.double({ min: -360, max: 720, noNaN: true }), (unsorted, azimuth) => {
        const horizon = unsorted.sort((a, b) => a[0] - b[0]);
        const heights = horizon.map(([, height]) => height);
        const limit = at(horizon, azimuth);
        expect(limit).toBeGreaterThanOrEqual(Math.min(...heights) - 1e-9);
        expect(limit).toBeLessThanOrEqual(Math.max(...heights) + 1e-9);
      }),
    );
  });
});
