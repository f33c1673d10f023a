import { describe, expect, it } from 'vitest';
import { zoneIn } from '../../../src/gather/dialects/draft/time/zone-statement.js';
import { areAll, beginsIn, proseOf, tableOf } from './support/clocked-logs.js';

const two = (value: number): string => String(value).padStart(2, '0');
/** The parts of an instant in Madrid's summer time, UTC+2. */
function inMadrid(ms: number): { day: number; clock: string; toTheMinute: string } {
  const iso = new Date(ms + 7_200_000).toISOString();
  return { day: Number(iso.slice(8, 10)), clock: iso.slice(11, 19), toTheMinute: iso.slice(11, 16) };
}

// How dates are written in these countries: common practice, no source.
describe('a draft for a log with dates as written in', () => {
  it.each([
    ['Denmark', (ms: number): string => `${inMadrid(ms).day}/10-2026 kl. ${inMadrid(ms).clock.replaceAll(':', '.')}`],
    ['Norway', (ms: number): string => `${inMadrid(ms).day}/10-26 ${inMadrid(ms).clock}`],
  ])('%s', async (_, stamp) => {
    const { yaml, found } = await beginsIn(proseOf(stamp));
    expect(areAll(found), yaml).toBe(true);
  });

  it('Spain, with a year of two digits, once a day', async () => {
    let last = 0;
    const lines = tableOf('fecha;hora', (ms) => {
      const { day, clock } = inMadrid(ms);
      const date = day === last ? '' : `${day}-oct-26`;
      last = day;
      return `${date};${clock}`;
    });
    // No other evidence of the day: neither the file's name nor its head has one.
    const { yaml, found } = await beginsIn(lines, 'noche.csv');
    expect(areAll(found), yaml).toBe(true);
  });
});

describe('a draft for a table with two clocks', () => {
  it('takes that with a column for each part, to the second, not that to the minute', async () => {
    const lines = tableOf('date loc;time loc;y UT;mo UT;d UT;h UT;min;sec', (ms) => {
      const at = new Date(ms);
      const { day, toTheMinute } = inMadrid(ms);
      const parts = [at.getUTCFullYear(), at.getUTCMonth() + 1, at.getUTCDate(), at.getUTCHours(), at.getUTCMinutes()];
      return [`${two(day)}.10.2026`, toTheMinute, ...parts, at.getUTCSeconds()].join(';');
    });
    const { yaml, found } = await beginsIn(lines);
    expect(areAll(found), yaml).toBe(true);
    expect(yaml).toContain("time: ['y UT', 'mo UT', 'd UT', 'h UT', 'min', 'sec']");
    expect(yaml).not.toContain('at: {');
  });
});

describe('a clock that is not put forward in summer', () => {
  it.each([
    ['Spalte wann: ganzjährig MEZ (keine Sommerzeit)', '+01:00'],
    ['CET all year, never summer time', '+01:00'],
    ['časy v SEČ po celý rok, bez letního času', '+01:00'],
    ['EET, no daylight saving', '+02:00'],
  ])('is that of winter: %s', (text, zone) => {
    expect(zoneIn([text])).toBe(zone);
  });

  it('is the site’s where summer time is the clock', () => {
    expect(zoneIn(['alle Zeiten in Sommerzeit'])).toBe('site');
  });
});
