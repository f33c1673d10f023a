import { describe, expect, it } from 'vitest';
import { daylightWarnings } from '../../src/sky/daylight.js';
import { at, light } from '../support/events.js';

const zone = { name: 'Europe/Madrid', offsetMs: 7_200_000 };
/** A Sun that sets at 18:00 UTC sharp. */
const sun = (ms: number): number => (ms < at('18:00:00') ? 10 : -30);
const lights = (begin: number) =>
  Array.from({ length: 6 }, (_, i) => light('heron', `${begin}:${String(i * 6).padStart(2, '0')}:00`, 300));

describe('lights in daylight', () => {
  it('are reported', () => {
    expect(daylightWarnings(lights(15), sun, zone, -30)[0]).toMatchObject({ code: 'lights-in-daylight', count: 6 });
  });
  it('at one end of the night may be a plan that went on, or began too soon', () => {
    const early = [...lights(17).slice(2), ...lights(20), ...lights(21)];
    expect(daylightWarnings(early, sun, zone, -30)[0]?.message).toContain(': imaging began before dusk, or the date');
    const risen = (ms: number): number => (ms < at('22:00:00') ? -30 : 10);
    const late = [...lights(20), ...lights(21), ...lights(22).slice(2)];
    expect(daylightWarnings(late, risen, { name: 'UTC', offsetMs: 0 }, -30)[0]?.message).toContain(
      ': imaging went on after dawn, or the date',
    );
    expect(daylightWarnings([...lights(15), ...lights(20)].slice(0, 8), sun, zone, -30)[0]?.message).toContain(
      ': the date, the clock',
    );
  });
  it('are not mentioned at night', () => {
    expect(daylightWarnings(lights(20), sun, zone, -30)).toEqual([]);
  });
  it('are called local time when that would make it night', () => {
    // West of Greenwich local time is behind: an offset of −5 h turns a day's hours into the night's.
    const west = { name: 'America/Bogota', offsetMs: -5 * 3_600_000 };
    const [warning] = daylightWarnings(lights(15), sun, west, -30);
    expect(warning).toMatchObject({ code: 'local-time-suspected' });
    expect(warning?.message).toContain('headerTimeZone: America/Bogota');
  });
  it('are the place’s own where the Sun stays above −3° all night', () => {
    expect(daylightWarnings(lights(15), sun, zone, -1.6)).toEqual([]);
  });
  it('forgive a test frame at dusk', () => {
    expect(daylightWarnings(lights(15).slice(0, 2), sun, zone, -30)).toEqual([]);
  });
});
