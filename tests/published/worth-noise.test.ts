/**
 * Effective integration and sub length against the numbers that were worked out with the formulas.
 * (C) computed outside this project, (D) derived from the signal-to-noise ratio of Merline & Howell 1995.
 */
import { describe, expect, test } from 'vitest';
import { effectiveShare, extraNoise, secondsForExtraNoise, skyLimitedShare } from '../../src/worth/noise.js';

/** R = 1.5 e⁻, d = 0.001 e⁻/s; frame and reference of one length; the sky brighter by `mag`. */
function share(darkSky: number, mag: number, seconds: number): number {
  const camera = { dark: 0.001, readNoise: 1.5, seconds };
  return effectiveShare(1, { ...camera, sky: darkSky * 10 ** (0.4 * mag) }, { ...camera, sky: darkSky });
}

describe('effective share (D, values C)', () => {
  test.each([
    ['broad band, b0 = 2 e⁻/s, sky brighter by 2 mag, 120 s', 2, 120, 0.1598],
    ['3 nm, b0 = 0.02 e⁻/s, sky brighter by 2 mag, 300 s', 0.02, 300, 0.2116],
    ['the same in subs of 60 s', 0.02, 60, 0.3552],
  ])('%s', (_what, darkSky, seconds, expected) => {
    expect(share(darkSky, 2, seconds)).toBeCloseTo(expected, 4);
  });

  test('of 2 mag where the sky is all the noise: 0.1585', () => {
    expect(skyLimitedShare(1, 10 ** 0.8)).toBeCloseTo(0.1585, 4);
  });
});

describe('effective time of the Dark Energy Survey, η²·(FWHM/0.9″)⁻²·(b/b_dark)⁻¹ (Neilsen et al. 2016, FERMILAB-TM-2610; values C)', () => {
  test.each([
    // FWHM ″, η, b/b_dark, t_eff
    [1.2, 1, 1, 0.5625],
    [0.9, 0.8, 1, 0.64],
    [1.3, 0.9, 2, 0.1941],
  ])('%d″, η %d, sky %d: %d', (fwhm, transparency, sky, expected) => {
    // Their factor for seeing is not in ours, which is for wide targets.
    expect(skyLimitedShare(transparency, sky) * (fwhm / 0.9) ** -2).toBeCloseTo(expected, 4);
  });
});

describe('sub length (D)', () => {
  test.each([
    // extra noise, sky and dark current in units of read noise squared
    [0.01, 49.75],
    [0.02, 24.75],
    [0.05, 9.756],
    [0.1, 4.762],
  ])('an extra noise of %d needs Bt/R² of %d (C)', (extra, swamp) => {
    expect(secondsForExtraNoise(1, 1, extra)).toBeCloseTo(swamp, 2);
    expect(extraNoise(1, 1, swamp)).toBeCloseTo(extra, 4);
  });

  test.each([
    [2, 11],
    [0.02, 1098],
  ])('R = 1.5 e⁻, 5 %%, %d e⁻/s: %d s (C)', (background, seconds) => {
    expect(Math.round(secondsForExtraNoise(background, 1.5, 0.05))).toBe(seconds);
  });
});
