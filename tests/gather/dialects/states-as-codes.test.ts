import { describe, expect, it } from 'vitest';
import type { EventName } from '../../../src/model/index.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

// Tables with a row for each change and the states of devices as codes, which lists above explain; all invented.

const SHOTS = 6;
const FROM_MS = Date.UTC(2026, 9, 14, 20);

/** Codes for exposing and not, at rest and dithering. */
type Codes = readonly [on: string, off: string, still: string, moving: string];

/** Heron exposes twice for each exposure of wren's, then the mount dithers; columns behind the devices on request. */
function table(head: readonly string[], [on, off, still, moving]: Codes, filters = false): string[] {
  let [heron, wren, mount] = [off, off, still];
  const rows: string[] = [];
  const row = (at: number): void => {
    const beside = (state: string, filter: string, seconds: number): string =>
      filters ? `;${filter};${state === on ? seconds : ''}` : '';
    const clock = new Date(FROM_MS + at * 1000).toISOString().slice(0, 19);
    rows.push(`${clock}Z;${heron}${beside(heron, 'L', 240)};${wren}${beside(wren, 'Ha', 420)};${mount}`);
  };
  for (let i = 0; i < SHOTS; i++) {
    const changes: readonly (readonly [number, () => void])[] = [
      [0, () => (heron = on)],
      [20, () => (wren = on)],
      [240, () => (heron = off)],
      [249, () => (heron = on)],
      [440, () => (wren = off)],
      [489, () => (heron = off)],
      [500, () => (mount = moving)],
      [507 + (i % 3), () => (mount = still)],
    ];
    for (const [at, change] of changes) {
      change();
      row(600 * i + at);
    }
  }
  return [...head, ...rows];
}

async function eventsOf(lines: readonly string[]): Promise<string[]> {
  const { events } = await read(drafted(lines, 'states.csv').yaml, `${lines.join('\n')}\n`);
  return events.map(({ atMs, event, train = '' }) => `${(atMs - FROM_MS) / 1000} ${event} ${train}`.trim()).sort();
}

const NIGHT = Array.from({ length: SHOTS }, (_, i) => {
  const happened: readonly (readonly [number, EventName, string])[] = [
    [0, 'exposure-begin', ' heron'],
    [20, 'exposure-begin', ' wren'],
    [240, 'exposure-end', ' heron'],
    [249, 'exposure-begin', ' heron'],
    [440, 'exposure-end', ' wren'],
    [489, 'exposure-end', ' heron'],
    [500, 'dither-begin', ''],
    [507 + (i % 3), 'dither-end', ''],
  ];
  return happened.map(([at, event, train]) => `${600 * i + at} ${event}${train}`);
}).flat();
/** The first row is where the log begins: heron had been exposing before. */
const TOLD = NIGHT.slice(1).sort();

describe('two codes of a device that a list explains', () => {
  it.each<[string, string[], Codes]>([
    [
      'letters of filters',
      ['heron: B = exposes, R = reads out', 'wren: B = exposes, R = reads out', 'mount: L = tracks, H = dithers'],
      ['B', 'R', 'L', 'H'],
    ],
    [
      'numbers, in Italian',
      ['heron: 0 = ferma, 1 = espone', 'wren: 0 = ferma, 1 = espone', 'montatura: 0 = insegue, 1 = dither'],
      ['1', '0', '0', '1'],
    ],
    [
      'one list for both cameras, which does not name their columns, in German',
      ['Kameras: B = belichtet, R = liest aus', 'Montierung: N = führt nach, D = Dither'],
      ['B', 'R', 'N', 'D'],
    ],
  ])('tell what begins and what ends: %s', async (_, lists, codes) => {
    const mount = lists.at(-1)?.split(':')[0] ?? '';
    expect(await eventsOf(table([...lists, `time;heron;wren;${mount}`], codes))).toEqual(TOLD);
  });

  it('are no exposures without a list, rather than the wrong ends', async () => {
    const events = await eventsOf(table(['time;heron;wren;mount'], ['B', 'R', 'L', 'H']));
    expect(events.filter((event) => event.includes('exposure'))).toEqual([]);
  });

  it('leave filters alone, and columns to the device under whose first letters they stand', async () => {
    const lines = table(
      [
        '# heron, wren: R = exposes, L = idle',
        '# mount: T = tracks, D = dithers',
        'time;heron;h.filter;h.s;wren;w.filter;w.s;mount',
      ],
      ['R', 'L', 'T', 'D'],
      true,
    );
    const { events } = await read(drafted(lines, 'states.csv').yaml, `${lines.join('\n')}\n`);
    const begins = events.filter(({ event }) => event === 'exposure-begin');
    expect(begins.filter(({ train }) => train === 'wren')[0]).toMatchObject({ filter: 'Ha', seconds: 420 });
    expect(begins.filter(({ train }) => train === 'heron')[0]).toMatchObject({ filter: 'L', seconds: 240 });
  });
});
