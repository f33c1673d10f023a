import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  effectiveShare,
  extraNoise,
  secondsForExtraNoise,
  skyLimitedShare,
  varianceRate,
  type Exposure,
} from '../../src/worth/noise.js';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const exposure: fc.Arbitrary<Exposure> = fc.record({
  sky: between(0.001, 50),
  dark: between(0, 0.1),
  readNoise: between(0, 20),
  seconds: between(1, 1800),
});

describe('the effective share', () => {
  it('is 1 for the reference itself', () => {
    fc.assert(
      fc.property(exposure, (frame) => {
        expect(effectiveShare(1, frame, frame)).toBe(1);
      }),
    );
  });

  it('is no more than 1 under a sky as bright as the reference or brighter, through air as clear or less', () => {
    fc.assert(
      fc.property(exposure, between(1, 100), between(0.1, 1), (reference, brighter, transparency) => {
        expect(
          effectiveShare(transparency, { ...reference, sky: reference.sky * brighter }, reference),
        ).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('falls as the sky grows brighter and as the air grows thicker', () => {
    fc.assert(
      fc.property(exposure, exposure, between(1.01, 10), (frame, reference, factor) => {
        const share = effectiveShare(0.9, frame, reference);
        expect(effectiveShare(0.9, { ...frame, sky: frame.sky * factor }, reference)).toBeLessThan(share);
        expect(effectiveShare(0.9 / factor, frame, reference)).toBeLessThan(share);
      }),
    );
  });

  it('lies between the sky-limited and the read-limited share for subs of one length', () => {
    fc.assert(
      fc.property(exposure, between(1, 100), between(0.1, 1), (reference, brighter, transparency) => {
        const share = effectiveShare(transparency, { ...reference, sky: reference.sky * brighter }, reference);
        expect(share).toBeGreaterThanOrEqual(skyLimitedShare(transparency, brighter) * (1 - 1e-12));
        expect(share).toBeLessThanOrEqual(transparency ** 2 * (1 + 1e-12));
      }),
    );
  });

  it('is that of the sky alone where a camera has no noise of its own', () => {
    fc.assert(
      fc.property(between(0.01, 10), between(1, 100), (sky, brighter) => {
        const camera = { dark: 0, readNoise: 0, seconds: 60 };
        expect(effectiveShare(0.8, { ...camera, sky: sky * brighter }, { ...camera, sky })).toBeCloseTo(
          skyLimitedShare(0.8, brighter),
          10,
        );
      }),
    );
  });

  it('keeps signal over noise: a frame of an hour and share g is as good as g hours of reference', () => {
    fc.assert(
      fc.property(exposure, exposure, between(0.2, 1), (frame, reference, transparency) => {
        const g = effectiveShare(transparency, frame, reference);
        // Signal per second τ and noise variance per second: (S/N)² = τ²·T/(variance rate).
        expect((transparency ** 2 * 3600) / varianceRate(frame)).toBeCloseTo((g * 3600) / varianceRate(reference), 6);
      }),
    );
  });
});

describe('extra noise', () => {
  it('is what the shortest exposure for it gives', () => {
    fc.assert(
      fc.property(between(0.001, 50), between(0.5, 20), between(0.001, 1), (background, readNoise, extra) => {
        expect(extraNoise(background, readNoise, secondsForExtraNoise(background, readNoise, extra))).toBeCloseTo(
          extra,
          8,
        );
      }),
    );
  });

  it('falls with longer exposures and brighter skies, and is none without read noise', () => {
    fc.assert(
      fc.property(between(0.001, 50), between(0.5, 20), between(1, 1000), (background, readNoise, seconds) => {
        expect(extraNoise(background, readNoise, 2 * seconds)).toBeLessThan(extraNoise(background, readNoise, seconds));
        expect(extraNoise(2 * background, readNoise, seconds)).toBeLessThan(extraNoise(background, readNoise, seconds));
        expect(extraNoise(background, 0, seconds)).toBe(0);
      }),
    );
  });
});
