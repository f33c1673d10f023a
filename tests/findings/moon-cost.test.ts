import { describe, expect, it } from 'vitest';
import { moonCost } from '../../src/findings/moon-cost.js';
import { sum, worthOfTotal, type Night } from '../../src/model/index.js';
import { worthyNight } from '../support/worthy-night.js';

const found = (night: Night) => moonCost.find(night, moonCost.defaults);

describe('what the Moon cost', () => {
  const night = worthyNight('twin-night');

  it('is reported for each train in open-shutter time, with the effective time lost in each filter', () => {
    const findings = found(night);
    expect(findings).toHaveLength(2);
    for (const train of ['heron', 'wren']) {
      const finding = findings.find((f) => f.title.includes(train));
      const totals = night.accounts.totals.filter((t) => t.train === train);
      expect(finding?.costMs).toBeCloseTo(sum(totals.map((t) => worthOfTotal(night, t)?.moonShutterMs ?? NaN)), 6);
      // Less than a minute has no line of its own.
      for (const { filter, target } of totals.filter((t) => (worthOfTotal(night, t)?.moonShutterMs ?? NaN) >= 60_000))
        expect(finding?.evidence.some((line) => line.startsWith(`${filter}, ${target}:`))).toBe(true);
    }
  });

  it('wins what the best order of filters would have saved', () => {
    const order = {
      train: 'heron',
      target: 'IC 1396',
      lossMs: 90 * 60_000,
      bestLossMs: 50 * 60_000,
      best: ['L', 'Ha'],
      filters: [
        {
          filter: 'Ha',
          exposureMs: 1,
          noise: 'read-noise',
          lossMs: 0,
          bestLossMs: 20 * 60_000,
          effectiveMs: 1,
          bestEffectiveMs: 1,
          brighteningMag: 0,
          bestBrighteningMag: 2,
        },
        {
          filter: 'L',
          exposureMs: 1,
          noise: 'read-noise',
          lossMs: 90 * 60_000,
          bestLossMs: 30 * 60_000,
          effectiveMs: 1,
          bestEffectiveMs: 1,
          brighteningMag: 2,
          bestBrighteningMag: 0,
        },
      ],
    } as const;
    const finding = found({ ...night, worth: night.worth && { ...night.worth, orders: [order] } }).find((f) =>
      f.title.includes('heron'),
    );
    expect(finding?.winMs).toBe(40 * 60_000);
    expect(finding?.advice).toMatch(/take L first, then Ha: 40 min less/);
  });

  it('promises nothing where no other order would do better', () => {
    const finding = found({ ...night, worth: night.worth && { ...night.worth, orders: [] } })[0];
    expect(finding?.winMs).toBe(0);
    expect(finding?.advice).toMatch(/hours without the Moon|right choice/);
  });

  it('is less sure where the noise is unknown', () => {
    expect(found(night).every((f) => f.confidence === 'medium')).toBe(true);
    expect(found(worthyNight('twin-night', false)).every((f) => f.confidence === 'low')).toBe(true);
  });

  it('is not worth a word under ten minutes', () => {
    const faint = {
      ...night,
      worth: night.worth && {
        ...night.worth,
        totals: Object.fromEntries(
          Object.entries(night.worth.totals).map(([key, worth]) => [key, { ...worth, moonShutterMs: 30_000 }]),
        ),
      },
    };
    expect(found(faint)).toEqual([]);
  });
});
