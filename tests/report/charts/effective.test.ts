import { describe, expect, it } from 'vitest';
import { effective } from '../../../src/report/charts/effective.js';
import { chartDrawer } from '../../../src/report/charts/canvas.js';
import { sum, weighedTotals } from '../../../src/model/index.js';
import { namedNight } from '../../support/nights.js';
import { drawn, missingOf, outline } from '../../support/charts.js';
import { worthyNight } from '../../support/worthy-night.js';

describe('the chart of effective integration', () => {
  const night = worthyNight('twin-night');
  const weighed = weighedTotals(night);

  it('parts what was kept into effective time, the Moon’s share and the rest', () => {
    expect(Object.values(outline(drawn(effective, night)))).toEqual([weighed.length, weighed.length, weighed.length]);
    const bars = drawn(effective, night)
      .config.data.datasets.flatMap((set) => set.data)
      .map(Number);
    expect(sum(bars) * 3_600_000).toBeCloseTo(sum(weighed.map((t) => t.ms.kept)), 3);
  });

  it('names the targets only where there are several', () => {
    expect(drawn(effective, night).config.data.labels?.[0]).toContain('IC 1396');
    expect(drawn(effective, worthyNight('one-train')).config.data.labels).toEqual(['heron  Ha', 'heron  OIII']);
  });

  it('is written with every letter: none is lost in a ligature', async () => {
    const { config, heightPx } = drawn(effective, night);
    const words = [...(await chartDrawer())(config, 940, heightPx).matchAll(/>([^<]+)</g)].map((match) => match[1]);
    expect(words).toContain('effective,');
  });

  it('needs a site and a worth', () => {
    expect(missingOf(effective, worthyNight('no-site'))).toBe('the site is not known');
    expect(missingOf(effective, namedNight('twin-night'))).toContain('nothing was kept');
    expect(missingOf(effective, worthyNight('no-frames'))).toContain('nothing was kept');
  });
});
