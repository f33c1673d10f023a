import { describe, expect, it } from 'vitest';
import { some } from '../../support/runs.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** 14 October 2026, 19:42:10 UTC. */
const T0 = Date.UTC(2026, 9, 14, 19, 42, 10);

/** What a night's rows tell, seconds from the first: written when each is over, so two trains' rows interleave. */
const ROWS = Array.from({ length: 24 }, (_, i) => {
  const at = i * 331;
  return [
    { begin: at, end: at + 300, what: 'exposure', note: `NGC 281 Ha 300 s` },
    { begin: at + 301, end: at + 304, what: 'dither', note: '3.2 px' },
    { begin: at + 304, end: at + 316, what: 'settling', note: 'calm' },
    ...(i % 6 === 0 ? [{ begin: at + 317, end: at + 329, what: 'filter change', note: 'Ha' }] : []),
  ];
}).flat();

const two = (value: number): string => String(value).padStart(2, '0');
const day = (d: Date): string => `${d.getUTCFullYear()}${two(d.getUTCMonth() + 1)}${two(d.getUTCDate())}`;
const clock = (d: Date, mark = ''): string =>
  [d.getUTCHours(), d.getUTCMinutes(), d.getUTCSeconds()].map(two).join(mark);

/** How a column may state an instant: digits, counts, days of two calendars; what stands above the table. */
const FORMS: readonly (readonly [string, readonly string[], (ms: number) => string])[] = [
  ['digits with a hyphen', ['# UT'], (ms) => `${day(new Date(ms))}-${clock(new Date(ms))}`],
  ['day first', ['# UT'], (ms) => `14.10.26 ${clock(new Date(ms), ':')}`],
  ['a time of day in digits', ['# UT, night of 2026-10-14'], (ms) => clock(new Date(ms))],
  ['seconds since the head', ['# counted from 2026-10-14T19:42:10Z'], (ms) => ((ms - T0) / 1000).toFixed(1)],
  ['milliseconds since the head', ['# counted from 2026-10-14T19:42:10Z'], (ms) => String(ms - T0)],
  ['Julian days', ['# UT'], (ms) => (ms / 86_400_000 + 2_440_587.5).toFixed(6)],
  ['modified Julian days', ['# UT'], (ms) => (ms / 86_400_000 + 40_587).toFixed(6)],
  ['seconds since 1970', ['# log'], (ms) => (ms / 1000).toFixed(2)],
];

const LAYOUTS: readonly (readonly [string, readonly string[], (row: (typeof ROWS)[number], of: Of) => string])[] = [
  ['a table', ['start;stop;what;note'], ({ begin, end, what, note }, of) => `${of(begin)};${of(end)};${what};${note}`],
  [
    'records of pairs',
    [],
    ({ begin, end, what, note }, of) => `start="${of(begin)}" stop="${of(end)}" what="${what}" note="${note}"`,
  ],
  [
    'records',
    [],
    ({ begin, end, what, note }, of) => JSON.stringify({ what, span: { from: of(begin), to: of(end) }, note }),
  ],
];
type Of = (seconds: number) => string;

describe.each(LAYOUTS)('%s with both ends of each row', (_, head, line) => {
  it.each(some(FORMS, 3))('states them as %s', async (_form, above, form) => {
    const lines = [...above, ...head, ...ROWS.map((row) => line(row, (seconds) => form(T0 + seconds * 1000)))];
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`);
    for (const [what, begins, ends] of [
      ['exposure', 'exposure-begin', 'exposure-end'],
      ['dither', 'dither-begin', 'dither-end'],
      ['filter change', 'filter-begin', 'filter-end'],
    ] as const) {
      const own = ROWS.filter((row) => row.what === what);
      const at = (event: string): number[] =>
        log.events.filter((one) => one.event === event).map(({ atMs }) => Math.round((atMs - T0) / 1000) + 0);
      expect(at(begins), yaml).toEqual(own.map(({ begin }) => begin));
      expect(at(ends), yaml).toEqual(own.map(({ end }) => end));
    }
  });
});

describe('lines with the clocks of two zones', () => {
  it('state one time and no span', async () => {
    const lines = ROWS.flatMap(({ begin, end, what }) =>
      [
        [begin, `${what} begins`],
        [end, `${what} done`],
      ].map(([seconds, text]) => {
        const ms = T0 + Number(seconds) * 1000;
        return `${clock(new Date(ms + 7_200_000), ':')} | ${clock(new Date(ms), ':')} UT ${String(text)}`;
      }),
    );
    const { report } = drafted(lines);
    expect(report.rules.filter(({ events }) => events.length > 1)).toEqual([]);
  });
});

describe('lines that begin with both ends', () => {
  it('state them with points beside numbers with commas, in the order of their ends', async () => {
    const rows = [
      ...ROWS.map((row) => ({ ...row, who: 'heron' })),
      ...ROWS.filter(({ what }) => what === 'exposure').map(({ begin }) => ({
        begin: begin + 20,
        end: begin + 170,
        what: 'exposure',
        note: 'NGC 281 L 150 s',
        who: 'wren',
      })),
    ].sort((a, b) => a.end - b.end);
    const at = (seconds: number): string => clock(new Date(T0 + seconds * 1000), '.');
    const lines = [
      'UT, night of 2026-10-14; 0,9 m above ground',
      ...rows.map(
        ({ begin, end, what, note, who }) => `${at(begin)} - ${at(end)}  ${who}  ${what}  ${note.replace('.', ',')}`,
      ),
    ];
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`);
    for (const [what, event, side] of [
      ['exposure', 'exposure-begin', 'begin'],
      ['exposure', 'exposure-end', 'end'],
      ['dither', 'dither-begin', 'begin'],
      ['dither', 'dither-end', 'end'],
    ] as const) {
      const found = log.events.filter((one) => one.event === event).map(({ atMs }) => (atMs - T0) / 1000);
      const own = rows.filter((row) => row.what === what).map((row) => row[side]);
      expect(
        found.sort((a, b) => a - b),
        yaml,
      ).toEqual(own.sort((a, b) => a - b));
    }
  });
});
