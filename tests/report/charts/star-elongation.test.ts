import { describe, expect, it } from 'vitest';
import { starElongation } from '../../../src/report/charts/star-elongation.js';
import { drawn, missingOf, outline } from '../../support/charts.js';
import { namedNight } from '../../support/nights.js';
import { starryNight } from '../../support/starry-night.js';

describe('the chart star-elongation', () => {
  it('has one stroke a measured frame for each train, and says the range', () => {
    const night = starryNight('two-hours', (index) => (index === 3 ? undefined : { elongation: 1.05 + index * 0.001 }));
    const drawing = drawn(starElongation, night);
    const strokes = Object.values(outline(drawing)).reduce((sum, points) => sum + points, 0);
    expect(strokes).toBe(3 * (night.accounts.lights.length - 1));
    expect(drawing.altText).toMatch(/^Elongation of the stars.*; median and range: .*heron .* to .*Marked: .*dithers/);
  });

  it('needs pixels', () => {
    expect(missingOf(starElongation, namedNight('two-hours'))).toBe('no pixels were read');
    expect(
      missingOf(
        starElongation,
        starryNight('two-hours', () => ({ elongation: null })),
      ),
    ).toBe('no star was measured');
  });
});
