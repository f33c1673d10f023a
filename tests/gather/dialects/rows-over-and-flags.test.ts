import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 11, 11, 19, 30);
const HEAD = 'Night of 2026-12-11 (UTC)';
const clock = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(11, 19);
const dayMonth = (seconds: number): string =>
  new Date(T0 + seconds * 1000)
    .toISOString()
    .slice(5, 10)
    .replace(/(\d+)-(\d+)/, '$2/$1');

/** What two trains and their mount do, seconds from the first; each thing has a row. */
const STEPS = Array.from({ length: 14 }, (_, i) => {
  const at = i * 340;
  return [
    { what: 'exposure', who: 'heron', from: at, to: at + 300, asked: '300 s · Ha' },
    { what: 'exposure', who: 'wren', from: at + 3, to: at + 123, asked: '120 s · L' },
    { what: 'exposure', who: 'wren', from: at + 126, to: at + 246, asked: '120 s · L' },
    { what: 'dither', who: 'mount', from: at + 305, to: at + 309, asked: `${(2 + i / 10).toFixed(1)} px` },
    { what: 'settling', who: 'guider', from: at + 310, to: at + 330, asked: '' },
    ...(i % 3 === 0 ? [{ what: 'filter wheel', who: 'heron', from: at + 331, to: at + 337, asked: '' }] : []),
  ];
})
  .flat()
  .sort((a, b) => a.to - b.to);

async function timesRead(lines: readonly string[]): Promise<(name: string) => number[]> {
  const { yaml } = drafted(lines, 'steps.csv');
  const { events } = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC', sessionDate: '2026-12-11' });
  return (name) =>
    events.flatMap(({ event, atMs }) => (event === name ? [(atMs - T0) / 1000] : [])).sort((a, b) => a - b);
}
const of = (what: string, side: 'from' | 'to'): number[] =>
  STEPS.flatMap((step) => (step.what === what ? [step[side]] : [])).sort((a, b) => a - b);

function expectAll(times: (name: string) => number[]): void {
  for (const [what, span] of [
    ['exposure', 'exposure'],
    ['dither', 'dither'],
    ['settling', 'settling'],
    ['filter wheel', 'filter'],
  ] as const) {
    expect(times(`${span}-begin`), what).toEqual(of(what, 'from'));
    expect(times(`${span}-end`), what).toEqual(of(what, 'to'));
  }
}

describe('rows written when each step is over', () => {
  it('may state the begin with its day and month, the end without', async () => {
    const rows = STEPS.map(({ what, who, from, to, asked }) =>
      [what, who, `${dayMonth(from)} ${clock(from)}`, clock(to), asked, 'ok'].join(';'),
    );
    expectAll(await timesRead([HEAD, 'step;device;began;ended;details;outcome', ...rows]));
  });

  it('may state how long it took, and once more what was asked for', async () => {
    const rows = STEPS.map(({ what, who, from, to, asked }) =>
      [`2026-12-11 ${clock(to)}`, to - from, who, what, asked].join(';'),
    );
    expectAll(await timesRead([HEAD, 'time;length;device;step;details', ...rows]));
  });
});

it('a column of states that is empty most of the time is one, a long cell touches the next', async () => {
  const state = (at: number): string[] => {
    const step = (what: string, who: string): boolean =>
      STEPS.some((one) => one.what === what && one.who === who && one.from <= at && at < one.to);
    return [
      step('dither', 'mount') ? 'MOVE' : 'TRACK',
      step('exposure', 'heron') ? 'EXPOSING' : 'IDLE',
      at > 700 && at < 1000 ? 'PAUSED' : 'ON',
      step('filter wheel', 'heron') ? 'TURNING' : 'STILL',
      step('settling', 'guider') ? 'WAIT' : '-',
    ];
  };
  const changes = Array.from({ length: 4760 }, (_, at) => ({ at, row: state(at).join(' ') })).filter(
    ({ at }) => at === 0 || state(at).join(' ') !== state(at - 1).join(' '),
  );
  const widths = [11, 7, 10, 7, 9, 6];
  const row = (cells: readonly string[]): string =>
    cells
      .map((cell, i) => cell.padEnd(widths[i] ?? 0))
      .join('')
      .trimEnd();
  const lines = [
    HEAD,
    row(['TIME', 'MOUNT', 'CAMERA', 'GUIDE', 'WHEEL', 'CALM']),
    ...changes.map(({ at }) => row([clock(at), ...state(at)])),
  ];
  const times = await timesRead(lines);
  expect(times('settling-begin')).toEqual(of('settling', 'from'));
  expect(times('settling-end')).toEqual(of('settling', 'to'));
  expect(times('filter-end')).toEqual(of('filter wheel', 'to'));
});

it('columns whose titles differ in one word are the two ends, sized in pixels those of a dither', async () => {
  const count = (seconds: number): string => ((T0 + seconds * 1000) / 1000).toFixed(3).replace('.', ',');
  const rows = Array.from({ length: 16 }, (_, i) => {
    const at = i * 340;
    const turns = i % 5 === 0 ? [count(at - 30), count(at - 24)] : ['', ''];
    const moved = i % 2 === 0 ? ['3,2', count(at - 20), count(at - 17)] : ['', '', ''];
    return [i + 1, 'Ha', 300, count(at), count(at + 300), `h_${i}.fits`, ...turns, ...moved].join(';');
  });
  const head = 'toma;filtro;segundos;inicio;fin;fichero;rueda_gira;rueda_para;zasca_px;zasca_inicio;zasca_fin';
  const times = await timesRead(['# instantes en segundos Unix', head, ...rows]);
  expect(times('filter-end')).toEqual([-24, 1676, 3376, 5076]);
  expect(times('dither-begin').slice(0, 2)).toEqual([-20, 660]);
  expect(times('dither-end').slice(0, 2)).toEqual([-17, 663]);
  expect(times('exposure-end')).toHaveLength(16);
});

it('states each minute below two rows of titles are those of their train, and remarks are none', async () => {
  const remarks = ['dew on the cover', 'car lights', 'an owl', 'wind in the trees', 'tea', 'a meteor', 'fog below'];
  const rows = Array.from({ length: 120 }, (_, at) => {
    const [long, short] = [at > 3 && at % 40 < 36, at > 3 && at % 20 < 18];
    return [
      clock(at * 60).slice(0, 5),
      ...(long ? ['exposing', Math.floor(at / 40) * 6 + Math.floor((at % 40) / 6), 360] : ['idle', '', '']),
      ...(short ? ['exposing', Math.floor(at / 20) * 6 + Math.floor((at % 20) / 3), 180] : ['idle', '', '']),
      at % 40 === 38 ? 'moving' : 'tracking',
      at < 4 ? 'no' : at % 20 === 19 ? 'pause' : 'yes',
      at % 17 === 5 ? remarks[Math.floor(at / 17)] : '',
    ].join(';');
  });
  const lines = [
    'Night of 2026-12-11 (UTC);heron;;;wren;;;;;',
    'time;state;frame;seconds;state;frame;seconds;mount;guiding;remarks',
    ...rows,
  ];
  const { yaml } = drafted(lines, 'minutes.csv');
  const { events } = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC', sessionDate: '2026-12-11' });
  const of = (name: string, train?: string): number[] =>
    events.flatMap(({ event, atMs, train: own }) => (event === name && own === train ? [(atMs - T0) / 60_000] : []));
  expect(of('exposure-begin', 'heron').slice(-5), yaml).toEqual([86, 92, 98, 104, 110]);
  expect(of('exposure-end', 'wren').slice(0, 6)).toEqual([6, 9, 12, 15, 18, 23]);
  expect(of('guiding-begin')).toEqual([4]);
  expect(yaml).not.toContain('meteor');
});
