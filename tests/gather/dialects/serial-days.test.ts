import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

/** 14 October 2026, 20:00 UTC. */
const T0 = Date.UTC(2026, 9, 14, 20);
const DAY_MS = 86_400_000;
/** 30 December 1899: day 0 of the 1900 date base system (ISO/IEC 29500-1, 18.17.4.1). */
const DAY_ZERO_MS = Date.UTC(1899, 11, 30);
const dayOf = (ms: number): number => (ms - DAY_ZERO_MS) / DAY_MS;
const comma = (value: number, digits: number): string => value.toFixed(digits).replace('.', ',');

const STEPS = Array.from({ length: 60 }, (_, i) => [
  { atMs: T0 + i * 320_000, what: 'exposure begins', event: 'exposure-begin', seconds: '300' },
  { atMs: T0 + i * 320_000 + 300_000, what: 'exposure ends', event: 'exposure-end', seconds: '' },
]).flat();

async function eventsRead(lines: readonly string[], zone = 'UTC'): Promise<[string, number][]> {
  const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone });
  return brief(log).map((line) => [line.split(' ')[1] ?? '', Date.parse(line.slice(0, 24))]);
}

function expectNear(found: readonly [string, number][], shiftMs = 0): void {
  expect(found.map(([event]) => event)).toEqual(STEPS.map(({ event }) => event));
  for (const [i, [, atMs]] of found.entries())
    expect(Math.abs(atMs - (STEPS[i]?.atMs ?? NaN) + shiftMs)).toBeLessThan(100);
}

describe('a table with the times that a spreadsheet keeps', () => {
  it('has days with their fractions in one column', async () => {
    const lines = [
      'Chwila [dni od 30.12.1899];What;Length [s]',
      ...STEPS.map(({ atMs, what, seconds }) => [comma(dayOf(atMs), 6), what, seconds].join(';')),
    ];
    expect(drafted(lines).report.stamp?.pattern).toBe('{serial-day}');
    expectNear(await eventsRead(lines));
    // They are what the clock of the site showed.
    expectNear(await eventsRead(lines, 'Europe/Madrid'), 7_200_000);
  });

  it.each([
    ['their fractions beside', (ms: number) => comma(dayOf(ms) % 1, 6), '{serial-day} 0{day-fraction}'],
    [
      'clocks beside',
      (ms: number) => new Date(ms).toISOString().slice(11, 19),
      '{serial-day} {hour}:{minute}:{second}',
    ],
  ])('has whole days in a column, and %s', async (_, ofDay, pattern) => {
    const lines = [
      'Day;Part;What;Length [s]',
      ...STEPS.map(({ atMs, what, seconds }) =>
        [String(Math.floor(dayOf(atMs))), ofDay(atMs), what, seconds].join(';'),
      ),
    ];
    expect(drafted(lines).report.stamp?.pattern).toBe(pattern);
    expectNear(await eventsRead(lines));
  });

  it('has dates, and parts of the day beside', async () => {
    const lines = [
      'Date;Part;What;Length [s]',
      ...STEPS.map(({ atMs, what, seconds }) =>
        [new Date(atMs).toISOString().slice(0, 10), comma(dayOf(atMs) % 1, 6), what, seconds].join(';'),
      ),
    ];
    expect(drafted(lines).report.stamp?.pattern).toBe('{year}-{month}-{day} 0{day-fraction}');
    expectNear(await eventsRead(lines));
  });

  it('has parts of the day alone, the date in the head', async () => {
    const lines = [
      'Night of 2026-10-14',
      'Part;What;Length [s]',
      ...STEPS.map(({ atMs, what, seconds }) => [comma(dayOf(atMs) % 1, 6), what, seconds].join(';')),
    ];
    expect(drafted(lines).report.stamp?.pattern).toBe('0{day-fraction}');
    expectNear(await eventsRead(lines));
  });
});
