import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** 1 March 2028, 21:00 UTC: day 061 of a leap year (ISO 8601-1:2019, 4.3.4: ordinal dates have three digits). */
const T0 = Date.UTC(2028, 2, 1, 21);
const dayOf = (ms: number): string =>
  String((Math.floor(ms / 86_400_000) * 86_400_000 - Date.UTC(2028, 0, 1)) / 86_400_000 + 1).padStart(3, '0');
const clock = (ms: number): string => new Date(ms).toISOString().slice(11, 19);
const hundredths = (ms: number): string => `${clock(ms).replaceAll(':', '.')}.07`;
const BEGINS = Array.from({ length: 50 }, (_, i) => T0 + i * 320_000);

async function begins(lines: readonly string[]): Promise<number[]> {
  const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  return log.events.filter(({ event }) => event === 'exposure-begin').map(({ atMs }) => Math.floor(atMs / 1000) * 1000);
}

const reported = (stamp: (ms: number) => string): string[] =>
  BEGINS.flatMap((ms) => [`${stamp(ms)} exposure begins, 300 s`, `${stamp(ms + 300_000)} exposure ends`]);

describe('a log whose dates are days of the year', () => {
  it.each([
    ['behind two digits of it', (ms: number) => `28${dayOf(ms)} ${hundredths(ms)}`],
    ['behind two digits of it and a hyphen', (ms: number) => `28-${dayOf(ms)} ${clock(ms)}`],
    ['behind the year and a hyphen', (ms: number) => `2028-${dayOf(ms)}T${clock(ms)}`],
    ['right behind the year', (ms: number) => `2028${dayOf(ms)} ${clock(ms)}`],
  ])('has them %s', async (_, stamp) => {
    expect(await begins(reported(stamp))).toEqual(BEGINS);
  });

  it.each(['2028-061, all times UTC', '2028061'])('has one in its head: %s', async (date) => {
    expect(await begins([`Night ${date}`, ...reported(clock)])).toEqual(BEGINS);
  });
});

it('does not take the number of a process for a day', () => {
  const { report } = drafted(reported((ms) => `26051 ${clock(ms)}`));
  expect(report.stamp?.pattern).not.toContain('day-of-year');
});
