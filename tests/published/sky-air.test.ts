/**
 * Published tables of air mass and extinction.
 * (R) read in a stored source, (C) computed by hand from the published formula, (M) from memory.
 */
import { describe, expect, test } from 'vitest';
import { airmass, airmassPickering, extinctionCoefficient, filterExtinction } from '../../src/sky/index.js';

describe('air mass', () => {
  // F. Kasten & A. T. Young 1989, Applied Optics 28, 4735 (C).
  test.each([
    [45, 1.4126],
    [30, 1.9943],
    [10, 5.586],
    [5, 10.3058],
  ])('Kasten & Young at %d° is %d', (altitude, value) => {
    expect(airmass(altitude)).toBeCloseTo(value, 4);
  });

  test('Kasten & Young on the horizon is 37.920, and at the zenith the fit’s 0.9997 is held at 1', () => {
    expect(airmass(0)).toBeCloseTo(37.92, 3);
    expect(airmass(90)).toBe(1);
  });

  // K. A. Pickering 2002, DIO 12 (C).
  test.each([
    [45, 1.4124],
    [30, 1.9932],
    [10, 5.5807],
    [5, 10.3337],
  ])('Pickering at %d° is %d', (altitude, value) => {
    expect(airmassPickering(altitude)).toBeCloseTo(value, 4);
  });

  test('Pickering on the horizon is 38.749', () => {
    expect(airmassPickering(0)).toBeCloseTo(38.749, 3);
  });
});

describe('extinction', () => {
  // Palomar, 1700 m, magnitudes per air mass (R).
  test.each([
    [440, 0.267],
    [500, 0.178],
    [540, 0.156],
    [650, 0.085],
    [682, 0.078],
    [810, 0.058],
  ])('at %d nm on Palomar is %d', (nm, k) => {
    expect(extinctionCoefficient(nm, 1700)).toBeCloseTo(k, 12);
  });

  // By interpolation in the same table.
  test.each([
    ['OIII', 0.178],
    ['Ha', 0.084],
    ['SII', 0.08],
  ])('through %s on Palomar is %d', (filter, k) => {
    expect(filterExtinction(filter, 1700)).toBeCloseTo(k, 3);
  });

  test('in the visual at sea level is near the 0.2 to 0.3 of common practice (M)', () => {
    const visual = extinctionCoefficient(550, 0) ?? NaN;
    expect(visual).toBeGreaterThan(0.18);
    expect(visual).toBeLessThan(0.3);
  });

  test('falls with the published scale height of 7000 m (approximate)', () => {
    const ratio = (extinctionCoefficient(600, 0) ?? NaN) / (extinctionCoefficient(600, 7000) ?? NaN);
    expect(ratio).toBeCloseTo(Math.E, 12);
  });
});
