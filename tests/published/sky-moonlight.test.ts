/**
 * Moonlight after K. Krisciunas & B. E. Schaefer 1991, PASP 103, 1033.
 * (R) read in a stored source, (C) computed from the published formulas outside this project.
 */
import { describe, expect, test } from 'vitest';
import { magArcsec2, moonBrightening, nanoLamberts } from '../../src/sky/index.js';

/** Their Table 2: Moon at zenith distance 60°, k 0.172, phase angle 30°, dark zenith of 79.0 nL. */
const TABLE_2 = { phaseAngleDeg: 30, moonAltitudeDeg: 30, k: 0.172, darkSkyMagArcsec2: magArcsec2(79) };

describe('Table 2', () => {
  test.each([
    // separation, zenith distance, moonlight nL (R), brightening (C)
    [5, 55, 7216, -4.475],
    [30, 30, 1160, -2.874],
    [60, 0, 530, -2.217],
  ])(
    'at %d° from the Moon and %d° from the zenith: %d nL, %d mag',
    (separationDeg, zenithDistance, nanoLambert, deltaMag) => {
      const result = moonBrightening(
        { ...TABLE_2, separationDeg, targetAltitudeDeg: 90 - zenithDistance },
        'published',
      );
      expect(result?.moonNanoLamberts.toFixed(0)).toBe(String(nanoLambert));
      expect(result?.deltaMag).toBeCloseTo(deltaMag, 3);
    },
  );

  test.each([
    [90, 30, 437.0],
    [120, 60, 818.2],
  ])('at %d° from the Moon and %d° from the zenith: %d nL (C)', (separationDeg, zenithDistance, nanoLambert) => {
    const result = moonBrightening({ ...TABLE_2, separationDeg, targetAltitudeDeg: 90 - zenithDistance }, 'published');
    expect(Math.abs((result?.moonNanoLamberts ?? NaN) - nanoLambert)).toBeLessThan(0.1);
  });
});

test('the example of another implementation, specsim’s documentation: 19.855 mag per square arcsecond (R)', () => {
  const result = moonBrightening(
    {
      phaseAngleDeg: 45,
      separationDeg: 50,
      moonAltitudeDeg: 20,
      targetAltitudeDeg: 70,
      k: 0.15,
      darkSkyMagArcsec2: 21.587,
    },
    'published',
  );
  expect(magArcsec2(result?.moonNanoLamberts ?? NaN)).toBeCloseTo(19.855, 3);
});

test('(2): the dark sky is brighter towards the horizon by its longer way, less what the air takes', () => {
  const at = (targetAltitudeDeg: number): number =>
    moonBrightening({ ...TABLE_2, separationDeg: 60, targetAltitudeDeg })?.darkNanoLamberts ?? NaN;
  expect(at(90)).toBeCloseTo(79, 9);
  // X(60°) = (1 − 0.96 · 0.75)^−½ = 1.889822; 79 · 10^(−0.4 · 0.172 · 0.889822) · 1.889822 = 129.67 (C).
  expect(at(30)).toBeCloseTo(129.67, 1);
});

test('(1): 79 nL are 21.587 V magnitudes per square arcsecond (C)', () => {
  expect(magArcsec2(79)).toBeCloseTo(21.587, 3);
  expect(nanoLamberts(magArcsec2(79))).toBeCloseTo(79, 9);
});
