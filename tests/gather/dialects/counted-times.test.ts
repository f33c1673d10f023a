import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** A log of twenty lines, its stamps by these seconds, under a head. */
function timeOf(head: readonly string[], stamp: (i: number) => string): string {
  const body = Array.from({ length: 20 }, (_, i) => `${stamp(i)} shutter ${i % 2 === 0 ? 'open' : 'closed'}`);
  const lines = [...head, ...body];
  const { yaml } = drafted(lines);
  return /pattern: '([^']*)'/.exec(yaml)?.[1] ?? '';
}

const clock = (seconds: number): string =>
  [3600, 60, 1]
    .map((unit) => String(Math.floor(seconds / unit) % (unit === 3600 ? 24 : 60)).padStart(2, '0'))
    .join(':');

describe('hours, minutes and seconds under a line with a date and a time', () => {
  it('count from it when they begin near zero', () => {
    expect(timeOf(['log opened 2026-10-14 20:15:03'], (i) => clock(9 + i * 300))).toBe('{elapsed}');
    expect(timeOf(['2026-10-14T20:15:03'], (i) => clock(9 + i * 300))).toBe('{elapsed}');
  });

  it('are times of day when they go on from it', () => {
    expect(timeOf(['log opened 2026-10-14 20:15:03'], (i) => clock(20 * 3600 + 920 + i * 300))).toBe(
      '{hour}:{minute}:{second}',
    );
  });

  it('count from it when they would put exposures into daylight', () => {
    expect(timeOf(['log opened 2026-10-14 03:15:03'], (i) => clock(10 * 3600 + i * 300))).toBe('{elapsed}');
  });

  it('count when a plus stands before them', () => {
    expect(timeOf(['zero is 2026-10-14 20:15:03'], (i) => `+${clock(7200 + i * 300)}`)).toBe('+{elapsed}');
  });

  it('are times of day where no line states a time', () => {
    expect(timeOf(['Night of 2026-10-14'], (i) => clock(60 + i * 300))).toBe('{hour}:{minute}:{second}');
  });
});

describe('hours, minutes and seconds under lines with a time of day alone', () => {
  const sections = ['NGC 281', 'M 33', 'IC 1396'].flatMap((target, k) => [
    `--- ${target}, opened at ${clock(20 * 3600 + 900 + k * 6000)}`,
    ...Array.from({ length: 12 }, (_, i) => `${clock(7 + i * 420)} shutter ${i % 2 === 0 ? 'open' : 'closed'}`),
  ]);

  it('count from each of them, on the day that the head states', async () => {
    const lines = ['Night of 14 October 2026', ...sections];
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
    const begins = log.events.filter(({ event }) => event === 'exposure-begin').map(({ atMs }) => atMs);
    expect(begins).toHaveLength(18);
    expect(begins.map((atMs) => new Date(atMs).toISOString().slice(0, 19)).filter((_, i) => i % 6 === 0)).toEqual([
      '2026-10-14T20:15:07',
      '2026-10-14T21:55:07',
      '2026-10-14T23:35:07',
    ]);
  });

  it('are times of day where they go on from such a line', () => {
    expect(timeOf(['Night of 2026-10-14, opened at 20:15:03'], (i) => clock(20 * 3600 + 920 + i * 300))).toBe(
      '{hour}:{minute}:{second}',
    );
  });
});
