import { describe, expect, it } from 'vitest';
import { altitude } from '../../../src/report/charts/altitude.js';
import { CIERZO_HILL, namedNight } from '../../support/nights.js';
import { drawn, missingOf, outline } from '../../support/charts.js';
import { altered } from '../../support/altered.js';

describe('the altitude chart', () => {
  it('shows Moon, limit, and each target whole and while imaged', () => {
    expect(Object.keys(outline(drawn(altitude, namedNight('twin-night'))))).toEqual([
      'Moon',
      'limit',
      'IC 1396',
      'NGC 281',
      'IC 1396, imaged',
      'NGC 281, imaged',
    ]);
  });

  it('follows the horizon where the limit is not the same all round', () => {
    const night = namedNight('twin-night');
    const curves = night.sky.curves.map((curve) => ({
      ...curve,
      points: curve.points.map((p, index) => ({ ...p, limitDeg: 20 + (index % 7) })),
    }));
    const hills = altered(night, { sky: { curves } });
    expect(Object.keys(outline(drawn(altitude, hills)))).toContain('limit for NGC 281');
  });

  it('is drawn where all lights were taken hours before the darkness of the stated site', () => {
    const night = namedNight('twin-night');
    const day = 86_400_000;
    const window = { startMs: night.sky.window.startMs + day, endMs: night.sky.window.endMs + day };
    expect(drawn(altitude, altered(night, { sky: { window } })).table?.rows.length).toBeGreaterThan(3);
  });

  it('says when each target stood highest', () => {
    expect(drawn(altitude, namedNight('twin-night')).altText).toMatch(
      /IC 1396 was highest at \d\d:\d\d, at \d+° and NGC 281 was highest/,
    );
  });

  it('has a row for every whole hour, with Sun and Moon', () => {
    const { table } = drawn(altitude, namedNight('twin-night'));
    expect(table?.rows.length).toBeGreaterThan(10);
    for (const row of table?.rows ?? []) {
      expect(row).toHaveLength(table?.columns.length ?? 0);
      expect(row[0]).toMatch(/^\d\d:00$/);
    }
    expect(table?.groups?.reduce((sum, group) => sum + group.span, 0)).toBe(table?.columns.length);
  });

  it('needs a site and a target whose place is known', () => {
    expect(missingOf(altitude, namedNight('no-site'))).toBe('the site is not known');
    expect(
      missingOf(altitude, altered(namedNight('twin-night'), { sky: { curves: [] }, gathered: { site: CIERZO_HILL } })),
    ).toBe('no target’s coordinates are known');
  });
});
