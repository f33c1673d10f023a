import { describe, expect, it } from 'vitest';
import { placeZone } from '../../src/config/index.js';
import { nightCut } from '../../src/gather/night-cut.js';
import { hoursFromSun, interval, zoneByPause, type Site } from '../../src/model/index.js';
import { nightOf } from '../../src/sky/index.js';
import { clockOf } from '../../src/vocabulary/clock.js';

const at = (iso: string): number => Date.parse(iso);
/** Every five minutes of a span. */
const during = (from: string, to: string): number[] => {
  const out: number[] = [];
  for (let ms = at(from); ms <= at(to); ms += 300_000) out.push(ms);
  return out;
};

describe('the zone of a place', () => {
  // Zones of cities: the IANA time zone database.
  it.each([
    [40.42, -3.7, 'Europe/Madrid'],
    [-41.29, 174.78, 'Pacific/Auckland'],
    [64.15, -21.94, 'Atlantic/Reykjavik'],
    [-30.24, 289.26, 'America/Santiago'],
  ])('at %f°, %f° is known without a network', (latitude, longitude, zone) => {
    expect(placeZone(latitude, longitude)).toBe(zone);
  });

  it.each([
    [-60, 179, 'UTC+12'],
    [-60, 181, 'UTC-12'],
    [0, -30, 'UTC-2'],
  ])('at sea, %f°, %f°, is the longitude’s hour', (latitude, longitude, zone) => {
    expect(placeZone(latitude, longitude)).toBe(zone);
  });

  it('tells the same time on the page as everywhere else where it is a whole hour', () => {
    const clock = clockOf('UTC+2');
    expect([clock.zone, clock.time(at('2026-10-14T19:42:00Z'))]).toEqual(['UTC+2', '21:42']);
  });
});

describe('nights without coordinates', () => {
  it.each([
    [
      'over Asia, where noon UTC falls into the night',
      during('2026-10-14T10:00:00Z', '2026-10-14T19:00:00Z'),
      '2026-10-14',
    ],
    ['over America', during('2026-10-15T02:00:00Z', '2026-10-15T12:30:00Z'), '2026-10-14'],
    ['near the date line', during('2026-12-31T08:30:00Z', '2026-12-31T15:30:00Z'), '2026-12-31'],
    ['at 65° N in June, some minutes long', during('2026-06-20T23:30:00Z', '2026-06-21T00:30:00Z'), '2026-06-20'],
  ])('%s are one night', (_where, instants, date) => {
    const cut = nightCut(null, instants);
    expect(new Set(instants.map((ms) => nightOf(ms, cut?.zone ?? 'UTC')))).toEqual(new Set([date]));
    expect(cut?.warning.message).toMatch(/no coordinates .* nights are cut at \d\d:\d\d UTC, in the longest pause/);
  });

  it('are cut at the noon of the local time that headers state', () => {
    const instants = during('2026-10-14T10:00:00Z', '2026-10-14T19:00:00Z');
    const stated = (localOffsetMinutes: number | undefined) => ({ localOffsetMinutes });
    const cut = nightCut(null, instants, [stated(570), stated(570), stated(undefined)]);
    expect(cut?.zone).toBe('UTC+9:30');
    expect(new Set(instants.map((ms) => nightOf(ms, cut?.zone ?? '')))).toEqual(new Set(['2026-10-14']));
    expect(cut?.warning.code).toBe('night-cut-by-local-time');
    expect(nightCut(null, instants, [stated(-210)])?.zone).toBe('UTC-3:30');
    expect(nightCut(null, instants, [stated(570), stated(undefined), stated(undefined)])?.warning.code).toBe(
      'night-cut-by-pause',
    );
  });

  it('of several dates are separated', () => {
    const instants = [0, 1, 2].flatMap((d) => during(`2026-10-1${d}T10:00:00Z`, `2026-10-1${d}T18:00:00Z`));
    const zone = zoneByPause(instants)?.zone ?? 'UTC';
    expect(new Set(instants.map((ms) => nightOf(ms, zone))).size).toBe(3);
  });
});

describe('nights without coordinates and without a pause', () => {
  /** Lights of a field from half past eight in the evening to four by the Sun of a longitude, night after night. */
  const lightsAt = (longitudeDeg: number, date: string, raDeg: number) =>
    [0, 1, 2].flatMap((night) =>
      during(`${date}T20:30:00Z`, `${date}T23:55:00Z`).flatMap((ms) => {
        const startMs = ms - (longitudeDeg / 15) * 3_600_000 + night * 86_400_000;
        return [0, 4 * 3_600_000].map((later) => ({
          pointing: { raDeg, decDeg: 40 },
          exposure: interval(startMs + later, startMs + later + 1),
        }));
      }),
    );
  /** Darks all day long. */
  const darks = during('2026-10-14T00:00:00Z', '2026-10-14T23:55:00Z');

  // Fields that culminate about midnight on the date: right ascension twelve hours from the Sun's, from memory.
  it.each([
    ['179° E over New Year', 179, '2026-12-30', 100],
    ['181°', -179, '2026-12-30', 100],
    ['a field of autumn at 1° W', -1, '2026-10-14', 20],
    ['a field that culminates at dusk', -70, '2026-10-14', 315],
    ['30° S, 149° E in June', 149, '2026-06-20', 270],
  ])('are cut by day where Sun and fields tell: %s', (_where, longitudeDeg, date, raDeg) => {
    const lights = lightsAt(longitudeDeg, date, raDeg);
    const cut = nightCut(null, [...darks, ...lights.map((l) => l.exposure.startMs)], lights);
    expect(cut?.warning.code).toBe('night-cut-by-sky');
    const nights = new Map(lights.map((l) => [nightOf(l.exposure.startMs, cut?.zone ?? ''), 0]));
    expect(nights.size).toBe(3);
  });

  it('are cut in what pause there is where nobody says what was pointed at', () => {
    expect(nightCut(null, darks)?.warning.code).toBe('night-cut-by-pause');
  });
});

describe('a zone that contradicts its longitude', () => {
  const site = (timezone: string, longitudeDeg: number): Site => ({
    name: '',
    latitudeDeg: -30,
    longitudeDeg,
    elevationM: 0,
    timezone,
    minimumAltitudeDeg: 25,
    horizon: [],
  });

  it('is warned of, and nights are cut in the longest pause', () => {
    const cut = nightCut(site('Europe/Madrid', 149), during('2026-10-14T10:00:00Z', '2026-10-14T18:00:00Z'));
    expect(cut?.warning).toMatchObject({ code: 'zone-contradicts-longitude' });
    expect(cut?.zone).toBe('UTC+10');
  });

  it.each([
    ['Pacific/Kiritimati', -157.4],
    ['Pacific/Auckland', 179],
    ['Europe/Madrid', -9.2],
    ['Asia/Urumqi', 76],
  ])('is none for %s at %f°', (timezone, longitude) => {
    expect(nightCut(site(timezone, longitude), [at('2026-07-01T10:00:00Z')])).toBeNull();
  });

  it('is measured around the clock', () => {
    expect(hoursFromSun(14 * 60, -157.4)).toBeCloseTo(0.49, 1);
  });
});
