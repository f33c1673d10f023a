import { describe, expect, it } from 'vitest';
import { summariseGuiding } from '../../src/account/guiding-summary.js';
import { interval } from '../../src/model/index.js';

describe('guiding over a span', () => {
  it('is computed about zero and about its mean: a steady offset leaves stars round', () => {
    const n = 100;
    const errors = Float64Array.from({ length: n }, (_, i) => 1.5 + (i % 2 === 0 ? 0.3 : -0.3));
    const summary = summariseGuiding(
      {
        atMs: Float64Array.from({ length: n }, (_, i) => i * 1000),
        raArcsec: errors,
        decArcsec: new Float64Array(n),
        snr: new Float64Array(n).fill(NaN),
        sources: [],
      },
      interval(0, n * 1000),
    );
    // √(1.5² + 0.3²) about zero, 0.3 about the mean (by hand).
    expect(summary?.totalRmsArcsec).toBeCloseTo(Math.hypot(1.5, 0.3), 9);
    expect(summary?.jitterRmsArcsec).toBeCloseTo(0.3, 9);
    expect(summary?.offsetArcsec).toBeCloseTo(1.5, 9);
  });
});
