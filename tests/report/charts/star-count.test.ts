import { describe, expect, it } from 'vitest';
import { starCount } from '../../../src/report/charts/star-count.js';
import { drawn, missingOf, outline } from '../../support/charts.js';
import { namedNight } from '../../support/nights.js';
import { starryNight } from '../../support/starry-night.js';

describe('the chart star-count', () => {
  it('has one stroke a measured frame for each train, and says the range', () => {
    const night = starryNight('two-hours', (index) => (index === 3 ? undefined : { count: 500 + index }));
    const drawing = drawn(starCount, night);
    const strokes = Object.values(outline(drawing)).reduce((sum, points) => sum + points, 0);
    expect(strokes).toBe(3 * (night.accounts.lights.length - 1));
    expect(drawing.altText).toMatch(/^Stars found.*; median and range: .*heron .* to .*Marked: .*dithers/);
  });

  it('needs pixels', () => {
    expect(missingOf(starCount, namedNight('two-hours'))).toBe('no pixels were read');
    expect(
      missingOf(
        starCount,
        starryNight('two-hours', () => undefined),
      ),
    ).toBe('no star was measured');
  });
});
