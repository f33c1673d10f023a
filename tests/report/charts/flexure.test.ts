import { describe, expect, it } from 'vitest';
import { flexure } from '../../../src/report/charts/flexure.js';
import { drawn, heights, missingOf } from '../../support/charts.js';
import { namedNight } from '../../support/nights.js';
import { flexureAt, pairOf, pointed } from '../../support/pointing.js';

describe('the chart of flexure', () => {
  it('begins each side of the pier at nothing and grows by the rate', () => {
    const drawing = drawn(flexure, pointed(namedNight('twin-night')));
    const along = heights(drawing, 'wren x');
    expect(along[0]).toBe(0);
    // Thirty points, six minutes apart, at 2.1 px an hour.
    expect(along[29]).toBeCloseTo(2.1 * 2.9, 9);
    expect(drawing.config.data.datasets).toHaveLength(4);
    expect(drawing.altText).toContain('wren against heron on NGC 281: 2.7″ per hour');
  });

  it('says what is missing', () => {
    expect(missingOf(flexure, namedNight('twin-night'))).toContain('no two trains');
    const still = pointed(namedNight('twin-night'), { pairs: [pairOf({}, { flexure: null })] });
    expect(missingOf(flexure, still)).toContain('no two trains');
    const resting = pointed(namedNight('twin-night'), { pairs: [pairOf({}, { flexure: flexureAt(0) })] });
    expect(drawn(flexure, resting).altText).toContain('0.0″ per hour');
  });
});
