import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { interval, type GuidingSeries } from '../../../../src/model/index.js';
import { leapOf } from '../../../../src/model/judging/evidence/leap.js';
import { seeded } from '../../../support/generator/random.js';

const LEAP_MS = Date.UTC(2026, 9, 14, 21);
const MOVE = interval(LEAP_MS, LEAP_MS + 20_000);

interface Guided {
  /** Time to 1/e with which the error goes back, s. */
  readonly decay: number;
  /** Spacing of the samples, and the first one after the leap, s. */
  readonly every: number;
  readonly late: number;
  readonly jitter?: number;
  readonly seed?: number;
}

/** Guiding that follows a leap of 3″ along right ascension and −4″ along declination. */
function guided({ decay, every, late, jitter = 0, seed = 1 }: Guided): GuidingSeries {
  const random = seeded(seed);
  const atMs = Float64Array.from({ length: 80 }, (_, i) => LEAP_MS + 1000 * (late + (i - 40) * every));
  const left = (t: number): number => (t < LEAP_MS ? 0 : Math.exp(-(t - LEAP_MS) / 1000 / decay));
  return {
    atMs,
    raArcsec: atMs.map((t) => -3 * left(t) + random.normal(0, jitter)),
    decArcsec: atMs.map((t) => 4 * left(t) + random.normal(0, jitter)),
    snr: new Float64Array(80).fill(NaN),
    sources: [],
  };
}

describe('a leap by the samples around it', () => {
  it('is carried back to the beginning of the move, however late the first sample comes', () => {
    const decays = fc.integer({ min: 2, max: 12 });
    fc.assert(
      fc.property(decays, fc.double({ min: 0, max: 0.95, noNaN: true }), (decay, part) => {
        const leap = leapOf(guided({ decay, every: 2, late: 2 * part }), MOVE);
        expect(leap?.isSeen).toBe(true);
        // Decays between those of the table cost some percent.
        expect(Math.abs((leap?.ra ?? NaN) - 3)).toBeLessThan(0.4);
        expect(Math.abs((leap?.dec ?? NaN) + 4)).toBeLessThan(0.55);
      }),
    );
  });

  it('is carried back by no more than one decay from sample to sample, where the error is gone at the next', () => {
    const leap = leapOf(guided({ decay: 0.4, every: 4, late: 0.4 }), MOVE);
    // The first sample shows 5″/e, a tenth of the spacing after the leap.
    expect(Math.hypot(leap?.ra ?? NaN, leap?.dec ?? NaN)).toBeCloseTo((5 / Math.E) * Math.exp(0.1), 1);
  });

  it('lies within its error in jitter: two of them, fourteen times in fifteen', () => {
    const misses = Array.from({ length: 200 }, (_, i) => {
      const leap = leapOf(guided({ decay: 4, every: 2, late: (i % 10) / 5, jitter: 0.5, seed: i + 1 }), MOVE);
      return Math.abs(Math.hypot(leap?.ra ?? NaN, leap?.dec ?? NaN) - 5) > 2 * (leap?.error ?? 0);
    });
    expect(misses.filter(Boolean).length).toBeLessThanOrEqual(14);
  });

  it('is seen in jitter alone once in a hundred moves at most', () => {
    const seen = Array.from({ length: 300 }, (_, i) => {
      const still = guided({ decay: 1e-6, every: 2, late: 1, jitter: 0.5, seed: i + 1 });
      return leapOf(still, MOVE)?.isSeen;
    });
    expect(seen.filter(Boolean).length).toBeLessThanOrEqual(3);
  });

  it('is not known without samples before and within the move', () => {
    expect(leapOf(guided({ decay: 4, every: 30, late: 1 }), MOVE)).toBeNull();
    expect(leapOf({ ...guided({ decay: 4, every: 2, late: 1 }), atMs: new Float64Array(0) }, MOVE)).toBeNull();
  });
});
