import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const EVENING_MS = Date.UTC(2026, 9, 14, 19);
const DATE = '2026-10-14';
const LENGTH_S = 240;

const clock = (s: number): string => new Date(EVENING_MS + s * 1000).toISOString().slice(11, 19);

/** Seconds after 19:00 UTC at which the nth exposure begins; a dither follows every so many of them. */
const beginOf = (n: number, every: number): number => 600 + n * 246 + Math.floor(n / every) * 21;

/** A row for each exposure: all that happened with it and after it, each in a column of its own. */
const rowsWith = (every: number): (string | number)[][] =>
  Array.from({ length: 60 }, (_, n) => {
    const begin = beginOf(n, every);
    const end = begin + LENGTH_S;
    const dithered = (n + 1) % every === 0 ? [end + 4, end + 9, end + 18 + (n % 4)].map(clock) : ['', '', ''];
    const times = [begin, end, end + 2].map(clock);
    return [n + 1, 'M 31', n < 30 ? 'L' : 'Ha', LENGTH_S, ...times, ...dithered, `L${n}.fits`];
  });
const logOf = (rows: readonly (readonly (string | number)[])[], every: number): string[] => [
  `Session of ${DATE}, all times UTC`,
  'No,Target,Filter,Exposure (s),Exposure start,Exposure end,Saved at,Dither start,Dither end,Settled at,File',
  ...rows.map((row) => row.join(',')),
  '',
  'Other work',
  'Start,End,Work,Detail',
  ...[0, 15, 30, 45].map((n) => {
    const [from, to] = [24, 15].map((s) => clock(beginOf(n, every) - s));
    return `${from},${to},filter change,${n < 30 ? 'L' : 'Ha'}`;
  }),
];

describe('a row that tells the times of six things', () => {
  it.each([1, 3])('is drafted with all of them, the facts with the exposure: a dither after %i', async (every) => {
    const rows = rowsWith(every);
    const log = logOf(rows, every);
    const { yaml } = drafted(log);
    const { events } = await read(yaml, `${log.join('\n')}\n`, { zone: 'UTC', sessionDate: DATE });
    const of = (name: string): string[] =>
      events.filter(({ event }) => event === name).map(({ atMs }) => clock((atMs - EVENING_MS) / 1000));
    const column = (i: number): string[] => rows.map((row) => String(row[i])).filter((cell) => cell !== '');
    expect(of('exposure-begin'), yaml).toEqual(column(4));
    expect(of('exposure-end'), yaml).toEqual(column(5));
    expect(of('frame-saved'), yaml).toEqual(column(6));
    expect(of('dither-begin'), yaml).toEqual(column(7));
    expect(of('dither-end'), yaml).toEqual(column(8));
    expect(of('settling-end'), yaml).toEqual(column(9));
    const exposures = events.filter(({ event }) => event === 'exposure-begin');
    expect(exposures.map((event) => 'seconds' in event && event.seconds)).toEqual(rows.map(() => LENGTH_S));
    // The number of the row is no distance.
    expect(events.filter((event) => 'pixels' in event && event.pixels !== undefined)).toEqual([]);
  });
});
