import { describe, expect, it } from 'vitest';
import { integration } from '../../../src/report/charts/integration.js';
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

  it('needs a light', () => {
    expect(missingOf(integration, namedNight('no-frames'))).toBe('no light was taken');
  });
});
