import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { contains, durationMs } from '../../src/model/index.js';
import { nightOf, nightSpan, nightZone } from '../../src/sky/index.js';
import { ms } from './invented-site.js';
import { runs } from '../support/runs.js';

const HOUR = 3_600_000;
const COMPUTERS = ['UTC', 'America/St_Johns', 'Pacific/Chatham', 'Europe/Madrid'];
const SITES = [
  'Europe/Madrid',
  'America/Phoenix',
  'Australia/Lord_Howe',
  'Pacific/Kiritimati',
  'Pacific/Pago_Pago',
  'Asia/Kathmandu',
  'America/St_Johns',
  'Africa/Cairo',
  'UTC',
  'UTC-9',
  'UTC+13',
];

describe.each(COMPUTERS)('on a computer in %s', (computer) => {
  const before = process.env.TZ;
  beforeAll(() => {
    process.env.TZ = computer;
    // The tests that follow mean something only if the process did change its zone.
    expect(new Intl.DateTimeFormat().resolvedOptions().timeZone).toBe(computer);
  });
  afterAll(() => {
    if (before === undefined) delete process.env.TZ;
    else process.env.TZ = before;
  });

  test.each([
    ['2026-10-14T09:59:59.999Z', '2026-10-13'],
    ['2026-10-14T10:00:00.000Z', '2026-10-14'],
    ['2026-10-14T21:59:00Z', '2026-10-14'],
    ['2026-10-14T22:01:00Z', '2026-10-14'],
    ['2026-10-15T09:59:59.999Z', '2026-10-14'],
  ])('%s belongs to the night of %s in Madrid', (iso, night) => {
    expect(nightOf(ms(iso), 'Europe/Madrid')).toBe(night);
  });

  test('a night runs from local noon to local noon', () => {
    expect(nightSpan('2026-10-14', 'Europe/Madrid')).toEqual({
      startMs: ms('2026-10-14T10:00:00Z'),
      endMs: ms('2026-10-15T10:00:00Z'),
    });
    expect(nightSpan('2026-12-31', 'UTC-9')).toEqual({
      startMs: ms('2026-12-31T21:00:00Z'),
      endMs: ms('2027-01-01T21:00:00Z'),
    });
  });

  test.each([
    ['2026-10-24', 'Europe/Madrid', 25],
    ['2026-03-28', 'Europe/Madrid', 23],
    ['2026-04-04', 'Australia/Lord_Howe', 24.5],
    ['2026-10-03', 'Australia/Lord_Howe', 23.5],
    ['2026-10-14', 'America/Phoenix', 24],
  ])('the night of %s in %s is %d hours long', (date, zone, hours) => {
    expect(durationMs(nightSpan(date, zone))).toBe(hours * HOUR);
  });

  test('every hour of a night with a change of clocks belongs to it', () => {
    for (const date of ['2026-10-24', '2026-03-28']) {
      const span = nightSpan(date, 'Europe/Madrid');
      for (let at = span.startMs; at < span.endMs; at += HOUR / 4) expect(nightOf(at, 'Europe/Madrid')).toBe(date);
    }
  });

  test('every instant lies in the span of its night', () => {
    const instant = fc.integer({ min: ms('1990-01-01T00:00:00Z'), max: ms('2037-01-01T00:00:00Z') });
    fc.assert(
      fc.property(instant, fc.constantFrom(...SITES), (at, zone) => {
        expect(contains(nightSpan(nightOf(at, zone), zone), at)).toBe(true);
      }),
      runs(300),
    );
  });

  test('a date that a zone left out has no night of its own', () => {
    // Samoa went from 29 to 31 December 2011.
    const start = ms('2011-12-29T00:00:00Z');
    for (let at = start; at < start + 72 * HOUR; at += HOUR) {
      const night = nightOf(at, 'Pacific/Apia');
      expect(night).not.toBe('2011-12-30');
      expect(contains(nightSpan(night, 'Pacific/Apia'), at)).toBe(true);
    }
  });
});

describe('the zone of a night', () => {
  test.each([
    ['Europe/Madrid', 170, 'Europe/Madrid'],
    [undefined, -1.12, 'UTC'],
    [undefined, 15.6, 'UTC+1'],
    [undefined, -110.97, 'UTC-7'],
    [undefined, 179.9, 'UTC+12'],
    [undefined, -179.9, 'UTC-12'],
    [undefined, 249.03, 'UTC-7'],
    ['Mars/Olympus', 15.6, 'UTC+1'],
    ['', 15.6, 'UTC+1'],
    // The zone of whoever runs the program is no zone of a site.
    ['local', undefined, 'UTC'],
    ['system', undefined, 'UTC'],
    [undefined, undefined, 'UTC'],
    [undefined, NaN, 'UTC'],
  ])('named %s at longitude %s is %s', (timezone, longitudeDeg, zone) => {
    expect(nightZone(timezone, longitudeDeg)).toBe(zone);
  });

  test('by longitude has its noon within half an hour of the mean Sun', () => {
    fc.assert(
      fc.property(fc.double({ min: -180, max: 180, noNaN: true }), (longitudeDeg) => {
        const span = nightSpan('2026-10-14', nightZone(undefined, longitudeDeg));
        const meanNoon = ms('2026-10-14T12:00:00Z') - (longitudeDeg / 15) * HOUR;
        expect(Math.abs(span.startMs - meanNoon)).toBeLessThanOrEqual(HOUR / 2);
      }),
    );
  });
});

describe('refused with the reason', () => {
  test.each(['2026-02-30', '2026-1-5', '14.10.2026', '', '2026-10-14T12:00', '2026-W42-3'])('the date "%s"', (date) => {
    expect(() => nightSpan(date, 'UTC')).toThrow(/is not a date: write YYYY-MM-DD/);
  });

  test.each(['Mars/Olympus', 'local', ''])('the time zone "%s"', (zone) => {
    expect(() => nightOf(0, zone)).toThrow(/unknown time zone/);
    expect(() => nightSpan('2026-10-14', zone)).toThrow(/unknown time zone/);
  });

  test('an instant that is none', () => {
    expect(() => nightOf(NaN, 'UTC')).toThrow(/no such instant/);
  });
});
