import { describe, expect, it } from 'vitest';
import { starWidth } from '../../../src/report/charts/star-width.js';
import { drawn, missingOf, outline } from '../../support/charts.js';
import { namedNight } from '../../support/nights.js';
import { starryNight } from '../../support/starry-night.js';

describe('the chart star-width', () => {
  it('has one stroke a measured frame for each train, and says the range', () => {
    const night = starryNight('two-hours', (index) => (index === 3 ? undefined : { fwhm: 2 + index * 0.01 }));
    const drawing = drawn(starWidth, night);
    const strokes = Object.values(outline(drawing)).reduce((sum, points) => sum + points, 0);
    expect(strokes).toBe(3 * (night.accounts.lights.length - 1));
    expect(drawing.altText).toMatch(/^Width of the stars.*; median and range: .*heron .* to .*Marked: .*dithers/);
  });

  it('needs pixels', () => {
    expect(missingOf(starWidth, namedNight('two-hours'))).toBe('no pixels were read');
    expect(
      missingOf(
        starWidth,
        starryNight('two-hours', () => ({ fwhm: null })),
      ),
    ).toBe('no star was measured');
  });
});
