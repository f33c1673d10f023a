import { describe, expect, it } from 'vitest';
import { median, partitionPoint, quantile, robustSpread } from '../../src/model/index.js';

describe('statistics', () => {
  it('take the middle of an even count', () => {
    expect(median([4, 1, 3, 2])).toBe(2.5);
  });
  it('say NaN for nothing, never zero', () => {
    expect(median([])).toBeNaN();
    expect(robustSpread([])).toBeNaN();
  });
  it('interpolate quantiles by definition 7 (Hyndman & Fan 1996)', () => {
    // x(1+ (n-1)p): for 1…5 at p = 0.1 that is 1 + 0.4 = 1.4.
    expect(quantile([1, 2, 3, 4, 5], 0.1)).toBeCloseTo(1.4, 12);
  });
  it('spread about the median without minding one wild value', () => {
    expect(robustSpread([1, 2, 3, 4, 1000])).toBeCloseTo(1.4826, 10);
  });
  it('find where a sorted list turns', () => {
    expect(partitionPoint([1, 3, 5], (x) => x >= 3)).toBe(1);
    expect(partitionPoint([1, 3, 5], (x) => x > 9)).toBe(3);
  });
});
