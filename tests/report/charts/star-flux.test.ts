import { describe, expect, it } from 'vitest';
import { starFlux } from '../../../src/report/charts/star-flux.js';
import { drawn, missingOf, outline } from '../../support/charts.js';
import { namedNight } from '../../support/nights.js';
import { starryNight } from '../../support/starry-night.js';

describe('the chart star-flux', () => {
  it('has one stroke a measured frame for each train, and says the range', () => {
    const night = starryNight('two-hours', (index) => (index === 3 ? undefined : { flux: 1 - index * 0.002 }));
    const drawing = drawn(starFlux, night);
    const strokes = Object.values(outline(drawing)).reduce((sum, points) => sum + points, 0);
    expect(strokes).toBe(3 * (night.accounts.lights.length - 1));
    expect(drawing.altText).toMatch(/^Light of the stars.*; median and range: .*heron .* to .*Marked: .*dithers/);
  });

  it('needs pixels', () => {
    expect(missingOf(starFlux, namedNight('two-hours'))).toBe('no pixels were read');
    expect(
      missingOf(
        starFlux,
        starryNight('two-hours', () => ({ flux: null })),
      ),
    ).toBe('no star was measured');
  });
});
