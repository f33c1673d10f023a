import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { skyAhead } from '../../src/look-ahead.js';
import { coveredMs, type ArchivedSite } from '../../src/model/index.js';
import { nightAhead, stretchesAbove } from '../../src/outlook/night-hours.js';
import { makeSkyObserver, nightSpan, skyNight, targetCurve } from '../../src/sky/index.js';
import { fakeSky, type FakeNight } from './fake-sky.js';

const LIMITS = { sunBelowDeg: -12, moonSeparationDeg: 40, deepRedSeparationDeg: 20 };
const PLACE = { raDeg: 0, decDeg: 0 };
const hoursOf = (night: FakeNight) =>
  nightAhead(
    fakeSky(() => night),
    '2026-12-01',
    [PLACE],
    LIMITS,
  ).targets[0];

describe('hours of a night', () => {
  it('are what darkness and the target have in common', () => {
    expect(hoursOf({ darkHours: 10, target: [9, 15] })).toMatchObject({ dark: 10, up: 6, moonless: 6, farMoon: 0 });
    expect(hoursOf({ darkHours: 10, target: [4, 9] })).toMatchObject({ up: 2 });
    expect(hoursOf({ darkHours: 10 })).toMatchObject({ up: 0, moonless: 0, farMoon: 0 });
  });

  it('are parted by the Moon: below the horizon, up and far, up and near', () => {
    expect(hoursOf({ darkHours: 10, target: [8, 16], moon: [5, 11] })).toMatchObject({
      up: 8,
      moonless: 5,
      farMoon: 3,
    });
    expect(hoursOf({ darkHours: 10, target: [8, 16], moon: [5, 11], separationDeg: 20 })).toMatchObject({
      up: 8,
      moonless: 5,
      farMoon: 0,
    });
  });

  it('are none on a night that does not get dark', () => {
    const night = nightAhead(
      fakeSky(() => ({ darkHours: -1, target: [0, 24] })),
      '2026-06-21',
      [PLACE],
      LIMITS,
    );
    expect(night).toMatchObject({ darkHours: 0, moonlessHours: 0, targets: [{ up: 0 }] });
  });

  it('agree with the night report’s own sky, which finds its edges to the second', () => {
    const site: ArchivedSite = {
      name: 'Cierzo Hill',
      latitudeDeg: 40.42,
      longitudeDeg: -1.12,
      elevationM: 1100,
      timezone: 'Europe/Madrid',
      minimumAltitudeDeg: 25,
      horizon: [
        [0, 10],
        [120, 35],
        [240, 15],
      ],
      darkness: 'nautical',
    };
    const observer = makeSkyObserver({ ...site, name: 'Cierzo Hill', minimumAltitudeDeg: 25 });
    const sky = skyAhead(site, '2026-11-01');
    const targets = [
      { raDeg: 13.2458, decDeg: 56.622 },
      { raDeg: 324.775, decDeg: 57.5 },
      { raDeg: 83.8, decDeg: -5.4 },
    ];
    for (const date of ['2026-11-01', '2026-12-24', '2027-03-28', '2027-06-21', '2027-08-09']) {
      const span = nightSpan(date, site.timezone);
      const { window } = skyNight(observer, span, 'nautical');
      const ahead = nightAhead(sky, date, targets, LIMITS);
      expect(
        Math.abs(ahead.darkHours - coveredMs([window.span]) / 3_600_000) * 60,
        `${date}: minutes of darkness`,
      ).toBeLessThan(3);
      targets.forEach((target, i) => {
        const { up } = targetCurve(
          observer,
          { ...target, name: 't', aliases: [], origin: 'rig-file' },
          span,
          window.span,
        );
        expect(
          Math.abs((ahead.targets[i]?.up ?? 0) - coveredMs(up) / 3_600_000) * 60,
          `${date}: minutes of target ${i}`,
        ).toBeLessThan(6);
      });
    }
  });
});

describe('stretches above zero', () => {
  it('lie between the passages of straight lines through the samples', () => {
    const samples = [
      [0, -1],
      [100, 1],
      [200, 1],
      [300, -3],
    ].map(([atMs = 0, value = 0]) => ({ atMs, value }));
    expect(stretchesAbove(samples)).toEqual([{ startMs: 50, endMs: 225 }]);
  });

  it('begin and end with the samples where the quantity is up there', () => {
    expect(
      stretchesAbove([
        { atMs: 0, value: 1 },
        { atMs: 60, value: 2 },
      ]),
    ).toEqual([{ startMs: 0, endMs: 60 }]);
    expect(stretchesAbove([])).toEqual([]);
    expect(
      stretchesAbove([
        { atMs: 0, value: 0 },
        { atMs: 60, value: 0 },
      ]),
    ).toEqual([]);
  });

  it('are disjoint and cover every sample that is up, whatever the quantity', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 30 }), (values) => {
        const samples = values.map((value, i) => ({ atMs: i * 1000, value }));
        const stretches = stretchesAbove(samples);
        stretches.forEach((s, i) => expect(s.startMs).toBeGreaterThanOrEqual(stretches[i - 1]?.endMs ?? 0));
        for (const { atMs, value } of samples)
          if (value > 0) expect(stretches.some((s) => atMs >= s.startMs && atMs <= s.endMs)).toBe(true);
      }),
    );
  });
});
