import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** 14 October 2026, 20:00 UTC. */
const T0 = Date.UTC(2026, 9, 14, 20);
const TITLES = ['No', 'Train', 'Work', 'Wanted', 'Opened', 'Finished', 'Filed'] as const;
const WIDTHS = [6, 8, 22, 10, 10, 10, 10] as const;

const clock = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(11, 19).replace(/:/g, '.');

/** A row set in columns: a dash where nothing is said, nothing at all in the last column. */
function row(no: number, train: string, what: string, times: readonly (number | null)[], remark = ''): string {
  const cells = [String(no), train, what, ...times.map((at) => (at === null ? '-' : clock(at)))];
  return `${cells.map((cell, i) => cell.padEnd(WIDTHS[i] ?? 0)).join('')}${remark}`.trimEnd();
}

const FILTERS = ['Ha', 'OIII'] as const;

interface Thing {
  readonly what: string;
  readonly times: readonly (number | null)[];
  readonly remark?: string;
}

/** One exposure after the other; after every second one a dither, after every sixth another filter. */
const THINGS: readonly Thing[] = Array.from({ length: 48 }, (_, i): Thing[] => {
  const at = i * 220;
  return [
    {
      what: `${FILTERS[Math.floor(i / 6) % 2] ?? ''} 180 s exposure`,
      times: [null, at, at + 180, at + 183],
      remark: `heron_${String(i + 1).padStart(3, '0')}.fits`,
    },
    ...(i % 2 === 0 ? [{ what: 'dither', times: [at + 184, at + 186, at + 190, at + 202] }] : []),
    ...(i % 6 === 0 ? [{ what: 'filter change', times: [null, at + 204, at + 211, null] }] : []),
  ];
}).flat();

const HEAD = [
  'Cierzo Hill, sheet of the night of 2026-10-14, clock in UTC',
  '',
  [...WIDTHS.entries()]
    .map(([i, width]) => (TITLES[i] ?? '').padEnd(width))
    .join('')
    .concat('Said'),
];

describe('a table set in columns whose rows have up to four times and leave out their last cell', () => {
  it('takes the first time for the beginning, the next for the end, and the others for what comes of it', async () => {
    const lines = [...HEAD, ...THINGS.map(({ what, times, remark }, i) => row(i + 1, 'heron', what, times, remark))];
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`);
    const at = (event: string): number[] =>
      log.events.filter((one) => one.event === event).map(({ atMs }) => (atMs - T0) / 1000);
    const stated = (begin: string, column: number): (number | null | undefined)[] =>
      THINGS.filter(({ what }) => what.includes(begin)).map(({ times }) => times[column]);
    for (const [event, what, column] of [
      ['exposure-begin', '180 s', 1],
      ['exposure-end', '180 s', 2],
      ['frame-saved', '180 s', 3],
      ['dither-ready', 'dither', 0],
      ['dither-begin', 'dither', 1],
      ['dither-end', 'dither', 2],
      ['settling-end', 'dither', 3],
      ['filter-begin', 'filter', 1],
      ['filter-end', 'filter', 2],
    ] as const)
      expect(at(event), `${event}\n${yaml}`).toEqual(stated(what, column));
  });

  it('reads an exposure that was given up as begun, with no end', async () => {
    const lost = { what: 'Ha 180 s exposure', times: [null, 10_700, null, null], remark: 'given up' };
    const all = [...THINGS, lost];
    const lines = [...HEAD, ...all.map(({ what, times, remark }, i) => row(i + 1, 'heron', what, times, remark))];
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`);
    const count = (event: string): number => log.events.filter((one) => one.event === event).length;
    expect(count('exposure-begin'), yaml).toBe(49);
    expect(count('exposure-end'), yaml).toBe(48);
  });
});
