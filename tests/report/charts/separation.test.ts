import { describe, expect, it } from 'vitest';
import { separation } from '../../../src/report/charts/separation.js';
import { namedNight } from '../../support/nights.js';
import { drawn, missingOf, outline } from '../../support/charts.js';

describe('the chart of the Moon’s distance', () => {
  it('tells imaged, Moon up and Moon down apart for each target', () => {
    expect(Object.keys(outline(drawn(separation, namedNight('twin-night'))))).toEqual([
      'IC 1396, imaged',
      'IC 1396, Moon up',
      'IC 1396, Moon down',
      'NGC 281, imaged',
      'NGC 281, Moon up',
      'NGC 281, Moon down',
    ]);
  });

  it('says how near the Moon came while it was up', () => {
    expect(drawn(separation, namedNight('twin-night')).altText).toMatch(/IC 1396: \d+° to \d+° while the Moon was up/);
  });

  it('needs a site', () => {
    expect(missingOf(separation, namedNight('no-site'))).toBe('the site is not known');
  });
});
