import { describe, expect, test } from 'vitest';
import { makeSkyObserver, nightSpan, skyNight } from '../../src/sky/index.js';
import { inventedSite } from './invented-site.js';

describe('the night of 14 October 2026 on Cierzo Hill', () => {
  const site = inventedSite();
  const observer = makeSkyObserver(site);
  const sky = skyNight(observer, nightSpan('2026-10-14', site.timezone), 'nautical');

  test('goes from sunset through the twilights and back in order', () => {
    const { civil, nautical, astronomical } = sky.twilight;
    const order = [
      sky.sunsetMs,
      civil.duskMs,
      nautical.duskMs,
      astronomical.duskMs,
      astronomical.dawnMs,
      nautical.dawnMs,
      civil.dawnMs,
      sky.sunriseMs,
    ].map((at) => at ?? NaN);
    expect(order.every(Number.isSafeInteger)).toBe(true);
    expect([...order].sort((a, b) => a - b)).toEqual(order);
  });

  test('has the window of the asked twilight', () => {
    expect(sky.window.span).toEqual({ startMs: sky.twilight.nautical.duskMs, endMs: sky.twilight.nautical.dawnMs });
  });

  test('has a thin waxing Moon four days after new', () => {
    expect(sky.moon.waxing).toBe(true);
    expect(sky.moon.illumination).toBeGreaterThan(0.1);
    expect(sky.moon.illumination).toBeLessThan(0.25);
  });
});

test.each([
  // New Moon on 10 October, full on 26 October 2026 (published lunar phases, from memory; the days are what counts).
  ['2026-10-12', true],
  ['2026-10-24', true],
  ['2026-10-28', false],
  ['2026-11-07', false],
])('the Moon of %s: waxing is %s', (date, waxing) => {
  const site = inventedSite();
  expect(skyNight(site, nightSpan(date, site.timezone), 'nautical').moon.waxing).toBe(waxing);
});

test('moonrise and moonset stand for the upper limb on the horizon', () => {
  const site = inventedSite();
  const observer = makeSkyObserver(site);
  const { riseMs, setMs } = skyNight(observer, nightSpan('2026-10-28', site.timezone), 'nautical').moon;
  for (const at of [riseMs, setMs]) {
    const { altitudeDeg, semidiameterDeg } = observer.at(at ?? NaN).moon;
    expect(altitudeDeg + semidiameterDeg + 34 / 60).toBeCloseTo(0, 5);
  }
});

test('nothing sets or rises where the Sun stays up, and the window says why', () => {
  const site = inventedSite({ latitudeDeg: 78.2, longitudeDeg: 15.6, timezone: 'Arctic/Longyearbyen' });
  const sky = skyNight(site, nightSpan('2026-06-21', site.timezone), 'nautical');
  expect(sky).toMatchObject({ sunsetMs: null, sunriseMs: null, window: { kind: 'sun-minimum' } });
  for (const { duskMs, dawnMs } of Object.values(sky.twilight)) expect([duskMs, dawnMs]).toEqual([null, null]);
});
