import { describe, expect, it } from 'vitest';
import { guidingStrip } from '../../../src/report/charts/guiding-strip.js';
import { namedNight } from '../../support/nights.js';
import { drawn, missingOf, outline } from '../../support/charts.js';
import { altered } from '../../support/altered.js';

describe('the guiding strip', () => {
  it('has a curve for either axis, no longer than its slots however many the samples', () => {
    const night = namedNight('twin-night');
    const sets = outline(drawn(guidingStrip, night));
    expect(Object.keys(sets).sort()).toEqual(['Dec', 'RA']);
    expect(night.gathered.guiding!.atMs.length).toBeGreaterThan(0);
    for (const points of Object.values(sets)) expect(points).toBeLessThanOrEqual(301);
  });

  it('shows the samples’ own RMS where one slot holds them all', () => {
    const night = namedNight('twin-night');
    const at = night.sky.window.startMs + 3_600_000;
    const guiding = {
      atMs: Float64Array.of(at, at + 1, at + 2),
      raArcsec: Float64Array.of(3, -3, 3),
      decArcsec: Float64Array.of(4, 4, -4),
      snr: Float64Array.of(NaN, NaN, NaN),
      sources: [],
    };
    const { config } = drawn(guidingStrip, altered(night, { gathered: { guiding } }));
    const highest = (label: string): number => {
      const set = config.data.datasets.find((one) => one.label === label)!;
      return Math.max(...(set.data as { y: number }[]).map((p) => p.y).filter(Number.isFinite));
    };
    expect(highest('RA')).toBeCloseTo(3, 12);
    expect(highest('Dec')).toBeCloseTo(4, 12);
  });

  it('needs samples', () => {
    expect(missingOf(guidingStrip, namedNight('no-guiding'))).toBe('there are no guiding samples');
  });
});
