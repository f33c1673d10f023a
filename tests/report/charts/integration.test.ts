import { describe, expect, it } from 'vitest';
import { chartDrawer } from '../../../src/report/charts/canvas.js';
import { integration } from '../../../src/report/charts/integration.js';
import { pageSvg } from '../../../src/report/charts/svg.js';
import { namedNight } from '../../support/nights.js';
import { drawn, missingOf, outline } from '../../support/charts.js';

describe('the chart of integration', () => {
  it('stacks kept, doubtful and lost for each filter and train', () => {
    expect(outline(drawn(integration, namedNight('twin-night')))).toEqual({ kept: 7, doubtful: 7, lost: 7 });
  });

  it('sums to the night’s integration, in hours', () => {
    const night = namedNight('twin-night');
    const sum = drawn(integration, night)
      .config.data.datasets.flatMap((set) => set.data)
      .reduce<number>((total, value) => total + Number(value), 0);
    expect(sum * 3_600_000).toBeCloseTo(
      night.accounts.totals.reduce((total, one) => total + one.ms.taken, 0),
      3,
    );
  });

  it('cuts a name that would push the bars off the picture', () => {
    const labels = drawn(integration, namedNight('long-names')).config.data.labels as string[];
    for (const label of labels) expect([...label].length).toBeLessThan(24);
  });

  it('lays paper under each figure beside a bar, so that no line of the grid stands in it', async () => {
    const { config, heightPx } = drawn(integration, namedNight('twin-night'));
    const svg = pageSvg((await chartDrawer())(config, 940, heightPx), 'c', '');
    const boxes = [...svg.matchAll(/fill="var\(--paper\)"[^>]*\bwidth="([\d.]+)" height="13(?:\.0\d*)?"/g)].map(
      ([, px]) => Number(px),
    );
    expect(boxes).toHaveLength(7);
    // Figures such as `3.9 h` in letters of 13 px.
    for (const width of boxes) expect(width).toBeGreaterThan(25);
  });

  it('needs a light', () => {
    expect(missingOf(integration, namedNight('no-frames'))).toBe('no light was taken');
  });
});
