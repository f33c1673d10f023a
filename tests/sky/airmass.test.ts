import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { airmass, airmassPickering } from '../../src/sky/index.js';

describe.each([
  ['Kasten & Young', airmass],
  ['Pickering', airmassPickering],
] as const)('air mass by %s', (_name, formula) => {
  test('is 1 at the zenith and falls all the way up to it', () => {
    expect(formula(90)).toBeCloseTo(1, 6);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 87, noNaN: true }), (deg) => {
        const higher = formula(deg + 1) ?? NaN;
        expect(formula(deg) ?? NaN).toBeGreaterThan(higher);
        expect(higher).toBeGreaterThanOrEqual(1);
      }),
    );
  });

  test('does not exist below the horizon, nor for what is no number', () => {
    expect(formula(0)).not.toBeNull();
    expect(formula(-0.01)).toBeNull();
    expect(formula(NaN)).toBeNull();
  });
});

test('the two fits agree to 0.3 % from 5° up and follow the secant high in the sky', () => {
  fc.assert(
    fc.property(fc.double({ min: 5, max: 90, noNaN: true }), (deg) => {
      const ratio = (airmass(deg) ?? NaN) / (airmassPickering(deg) ?? NaN);
      expect(Math.abs(ratio - 1)).toBeLessThan(0.003);
    }),
  );
  expect(airmass(60)).toBeCloseTo(1 / Math.sin(Math.PI / 3), 2);
});
