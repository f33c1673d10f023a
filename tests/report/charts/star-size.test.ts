import { describe, expect, it } from 'vitest';
import { starSize } from '../../../src/report/charts/star-size.js';
import { namedNight } from '../../support/nights.js';
import { drawn, missingOf, outline } from '../../support/charts.js';
import { altered } from '../../support/altered.js';

describe('the chart of star sizes', () => {
  it('has one stroke a frame for each train', () => {
    const night = namedNight('two-hours');
    expect(outline(drawn(starSize, night))).toEqual({
      wren: 3 * night.accounts.lights.filter((frame) => frame.train === 'wren').length,
      heron: 3 * night.accounts.lights.filter((frame) => frame.train === 'heron').length,
    });
  });

  it('counts the refocuses that it marks', () => {
    expect(drawn(starSize, namedNight('twin-night')).altText).toContain('4 refocuses');
    expect(drawn(starSize, altered(namedNight('headers-only'), { timeline: { activities: [] } })).altText).toContain(
      'No refocus is logged',
    );
  });

  it('needs a star size in a header', () => {
    const night = namedNight('two-hours');
    expect(
      missingOf(
        starSize,
        altered(night, { accounts: { lights: night.accounts.lights.map(({ header: _header, ...frame }) => frame) } }),
      ),
    ).toBe('no header gives a star size, or the pixel scale is not known');
  });
});
