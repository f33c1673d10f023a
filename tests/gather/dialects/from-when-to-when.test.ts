import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 19, 40);
const clock = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(11, 19);
const dated = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(0, 19).replace('T', ' ');
const counted = (seconds: number): string => `+${new Date(seconds * 1000).toISOString().slice(11, 19)}`;

interface Reported {
  readonly from: number;
  readonly to?: number;
  readonly what: string;
}

/** Forty exposures of four minutes; after each a file, after every other one a dither and the calm after it. */
const NIGHT: readonly Reported[] = Array.from({ length: 40 }, (_, i): Reported[] => {
  const at = i * 290;
  return [
    { from: at, to: at + 240, what: 'heron exposes 240 s of M 33 through Ha: good' },
    { from: at + 243, what: `heron saves heron_${1000 + i}.fits` },
    ...(i % 2 === 1
      ? [
          { from: at + 246, to: at + 252, what: 'heron dithers the mount: done' },
          { from: at + 252, to: at + 270, what: 'heron settles: calm' },
        ]
      : []),
  ];
}).flat();

/** All that happens, in seconds, with its names. */
const EVENTS = NIGHT.flatMap(({ from, to, what }): string[] => {
  const name = /exposes/.test(what) ? 'exposure' : /dithers/.test(what) ? 'dither' : 'settling';
  return to === undefined ? [`${from} frame-saved`] : [`${from} ${name}-begin`, `${to} ${name}-end`];
});

type Layout = readonly [
  name: string,
  head: string,
  one: (at: string, what: string) => string,
  two: (from: string, to: string, what: string) => string,
  stamp: (seconds: number) => string,
];

const HEAD = 'Night of 14 October 2026';
const LAYOUTS: readonly Layout[] = [
  [
    'a word in between',
    HEAD,
    (at, what) => `${at} ${what}`,
    (from, to, what) => `from ${from} to ${to} ${what}`,
    clock,
  ],
  [
    'another language',
    HEAD,
    (at, what) => `um ${at}: ${what}`,
    (from, to, what) => `von ${from} bis ${to}: ${what}`,
    clock,
  ],
  ['a dash', HEAD, (at, what) => `${at} ${what}`, (from, to, what) => `${from} - ${to} ${what}`, clock],
  ['a dash without blanks', HEAD, (at, what) => `${at} ${what}`, (from, to, what) => `${from}-${to} ${what}`, clock],
  ['an arrow', HEAD, (at, what) => `${at} ${what}`, (from, to, what) => `${from} -> ${to} ${what}`, clock],
  ['brackets', HEAD, (at, what) => `[${at}] ${what}`, (from, to, what) => `[${from} until ${to}] ${what}`, clock],
  [
    'the end of the line',
    HEAD,
    (at, what) => `${what} at ${at}`,
    (from, to, what) => `${what} from ${from} until ${to}`,
    clock,
  ],
  [
    'brackets at the end',
    HEAD,
    (at, what) => `${what} (${at})`,
    (from, to, what) => `${what} (${from} to ${to})`,
    clock,
  ],
  ['dates', 'Night log', (at, what) => `${at} ${what}`, (from, to, what) => `from ${from} to ${to} ${what}`, dated],
  [
    'counts',
    'Clock begins: 2026-10-14 19:40:00',
    (at, what) => `${at} ${what}`,
    (from, to, what) => `from ${from} to ${to} ${what}`,
    counted,
  ],
];

describe('a log whose lines tell from when to when', () => {
  it.each(LAYOUTS)('has both ends of each by %s', async (_, head, one, two, stamp) => {
    const reported = NIGHT.toSorted((a, b) => (a.to ?? a.from) - (b.to ?? b.from));
    const body = reported.map(({ from, to, what }) =>
      to === undefined ? one(stamp(from), what) : two(stamp(from), stamp(to), what),
    );
    const lines = [head, '', ...body];
    const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
    const found = log.events.map(({ atMs, event }) => `${(atMs - T0) / 1000} ${event}`);
    expect(found.toSorted()).toEqual(EVENTS.toSorted());
  });

  it('keeps two clocks of one instant for one', async () => {
    const lines = NIGHT.map(({ from, what }) => `at ${clock(from)} to ${clock(from)}: ${what}`);
    const log = await read(drafted([HEAD, ...lines]).yaml, `${HEAD}\n${lines.join('\n')}\n`, { zone: 'UTC' });
    expect(log.events.filter(({ event }) => event === 'frame-saved')).toHaveLength(40);
  });

  it('is a table, too, whose rows are written when things end and leave the end out where nothing lasts', async () => {
    const reported = NIGHT.toSorted((a, b) => (a.to ?? a.from) - (b.to ?? b.from));
    const rows = reported.map(({ from, to, what }) => `${clock(from)},${to === undefined ? '' : clock(to)},${what}`);
    const lines = ['begin,end,what', ...rows];
    const { yaml } = drafted(lines, 'night_2026-10-14.csv');
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC', name: 'night_2026-10-14.csv' });
    const found = log.events.map(({ atMs, event }) => `${(atMs - T0) / 1000} ${event}`);
    expect(found.toSorted()).toEqual(EVENTS.toSorted());
  });
});
