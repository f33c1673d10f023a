import { describe, expect, it } from 'vitest';
import { newStamp, StampPattern } from '../../../src/gather/dialects/time/stamp.js';
import { codes, read } from './support/read.js';

/** The time that a pattern reads in a text, and what is left of it; `null` if it reads none. */
function stamp(pattern: string, text: string): { ms: number; rest: string } | null {
  const bytes = Buffer.from(text);
  const found = newStamp();
  if (!new StampPattern(pattern).readAt(bytes, 0, bytes.length, found)) return null;
  return { ms: found.ms, rest: bytes.subarray(found.end).toString() };
}

async function times(head: string, lines: readonly string[], zone = 'Europe/Madrid'): Promise<string[]> {
  const log = await read(`dialect: 1\n${head}\nlines: [{ when: "mark", event: note }]\n`, `${lines.join('\n')}\n`, {
    zone,
  });
  expect(codes(log)).toEqual([]);
  return log.events.map(({ atMs }) => new Date(atMs).toISOString().replace('.000', ''));
}

describe('counts', () => {
  it('in two units add up: weeks and seconds of the week, seconds and microseconds', () => {
    expect(stamp('{elapsed*604800} {elapsed}', '2 30.5 x')).toEqual({ ms: 2 * 604_800_000 + 30_500, rest: ' x' });
    expect(stamp('{epoch} {elapsed*0.000001}', '1793500000 250000')?.ms).toBe(1_793_500_000_250);
    // Julian date of 2000-01-01 12:00 UTC is 2451545.0 (IAU), here as the day and its fraction.
    expect(stamp('{julian} {elapsed*86400}', '2451545 0.25')?.ms).toBe(Date.UTC(2000, 0, 1, 18));
  });

  it('may be signed, and count down', () => {
    expect(stamp('{elapsed}', '-1:02:03')?.ms).toBe(-3_723_000);
    expect(stamp('{elapsed}', '+90.5')?.ms).toBe(90_500);
    expect(stamp('{elapsed*-1}', '1:02:03')?.ms).toBe(-3_723_000);
    expect(stamp('{year}-{month}-{day} {day-second}', '2026-11-15 -60')?.ms).toBe(Date.UTC(2026, 10, 14, 23, 59));
    expect(() => new StampPattern('{epoch*-1}')).toThrow(/can count down/);
  });

  it('may be in any unit, also of the day and since 1970', () => {
    expect(stamp('{day-second*3600}', '21.5')?.ms).toBe(77_400_000);
    expect(stamp('{epoch*60}', '29891666')?.ms).toBe(29_891_666 * 60_000);
    // Hundreds of nanoseconds since the year 1: eighteen digits are read to the millisecond.
    const ms = stamp('{elapsed*0.0000001}', '639351132005950000')?.ms ?? NaN;
    expect(Math.abs(ms - 63_935_113_200_595)).toBeLessThanOrEqual(1);
  });

  it('may be hexadecimal', () => {
    expect(stamp('{epoch-hex}', '0x6AE69A20 up')).toEqual({ ms: 0x6ae69a20 * 1000, rest: ' up' });
    expect(stamp('{elapsed-hex*0.001}', '00ff')?.ms).toBe(255);
    expect(stamp('{elapsed-hex}', 'zz')).toBeNull();
  });

  it('may be durations of ISO 8601', () => {
    // ISO 8601-1:2019, 5.5.2.2: PnDTnHnMnS with the components that are not needed left out.
    expect(stamp('{elapsed-spelt}', 'PT3H29M2S"')).toEqual({ ms: 12_542_000, rest: '"' });
    expect(stamp('{elapsed-spelt}', 'P1DT12H')?.ms).toBe(129_600_000);
    expect(stamp('{elapsed-spelt}', 'PT36.5S')?.ms).toBe(36_500);
  });
});

describe('days of a week', () => {
  it('are those of ISO 8601, whose first week has the 4th of January', () => {
    // 2026-12-31 is a Thursday, so its week is the 53rd; 2027-01-04 begins the first of 2027.
    expect(stamp('{week-date} {hour}:{minute}', '2026-W53-4 22:10')?.ms).toBe(Date.UTC(2026, 11, 31, 22, 10));
    expect(stamp('{week-date}T{hour}{minute}', '2027W011T0010')?.ms).toBe(Date.UTC(2027, 0, 4, 0, 10));
    // From memory: 29 December 2008 was in the first week of 2009, 3 January 2010 in the last of 2009.
    expect(stamp('{week-date} {hour}:{minute}', '2009-W01-1 00:00')?.ms).toBe(Date.UTC(2008, 11, 29));
    expect(stamp('{week-date} {hour}:{minute}', '2009-W53-7 00:00')?.ms).toBe(Date.UTC(2010, 0, 3));
    expect(stamp('{week-date} {hour}:{minute}', '2027-W53-1 00:00')).toBeNull();
  });
});

describe('what times count from', () => {
  const BASE = '"{year}-{month}-{day} {hour}:{minute}:{second}"';

  it('may stand at the foot, for the lines above', async () => {
    const head = `time: { pattern: "{elapsed}", zone: utc }\nsections: [{ begin: "power on was (?<time>.+)", base: ${BASE}, above: true }]`;
    const lines = ['10 mark', '20 mark', 'power on was 2026-10-14 19:00:00'];
    expect(await times(head, lines)).toEqual(['2026-10-14T19:00:10Z', '2026-10-14T19:00:20Z']);
  });

  it('may follow from one line in the middle that has a count of its own', async () => {
    const head = `time: { pattern: "{elapsed}", zone: utc }\nsections: [{ begin: "clock set (?<time>.+)", base: ${BASE}, sync: true, above: true }]`;
    const lines = ['10 mark', '100 clock set 2026-10-14 19:00:00', '101 clock set 2026-10-14 19:00:05', '110 mark'];
    // A second such line sets the clock again.
    expect(await times(head, lines)).toEqual(['2026-10-14T18:58:30Z', '2026-10-14T19:00:14Z']);
  });

  it('may be a fixed instant, with a clock that is ahead', async () => {
    // IS-GPS-200: weeks since 1980-01-06, 18 s ahead of UTC since 2017.
    const head =
      'time: { pattern: "{elapsed*604800} {elapsed}", ahead: 18 }\nsections: [{ from: "1980-01-06T00:00:00Z" }]';
    expect(await times(head, ['2431 594044 mark'])).toEqual(['2026-08-15T21:00:26Z']);
  });

  it('may be reached again and again, where the counter is a small one', async () => {
    const head = `time: { pattern: "{elapsed}", zone: utc, wraps: 65536 }\nsections: [{ begin: "sync (?<elapsed>\\\\d+) = (?<time>.+)", base: ${BASE} }]`;
    const quoted = head.replaceAll('"sync', "'sync").replace('(?<time>.+)"', "(?<time>.+)'").replaceAll('\\\\d', '\\d');
    const lines = ['sync 65000 = 2026-10-14 19:00:00', '65500 mark', '64 mark', '65530 mark', '100 mark'];
    expect(await times(quoted, lines)).toEqual([
      '2026-10-14T19:08:20Z',
      '2026-10-14T19:10:00Z',
      // Six seconds before the turn: written late.
      '2026-10-14T19:08:50Z',
      '2026-10-14T19:10:36Z',
    ]);
  });

  it('must be stated where it applies to the lines above', async () => {
    const head = 'time: { pattern: "{elapsed}" }\nsections: [{ begin: "start", above: true }]';
    await expect(times(head, ['1 mark'])).rejects.toThrow(/no time until this one/);
  });
});

describe('a clock that was wrong', () => {
  it('is set right by the seconds that it was ahead', async () => {
    const pattern = '"{year}-{month}-{day} {hour}:{minute}:{second}"';
    expect(await times(`time: { pattern: ${pattern}, zone: utc, ahead: 150 }`, ['2026-10-14 19:02:30 mark'])).toEqual([
      '2026-10-14T19:00:00Z',
    ]);
    expect(await times(`time: { pattern: ${pattern}, ahead: -4.5 }`, ['2026-10-14 21:00:00 mark'])).toEqual([
      '2026-10-14T19:00:04.500Z',
    ]);
  });
});
