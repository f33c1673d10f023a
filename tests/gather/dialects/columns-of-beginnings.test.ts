import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);

/** Titles, and the words for a dither that begins and takes its time, and for settling that fails. */
const TABLES = [
  [
    'began       length  what             ask_s  result',
    'expose',
    'dither',
    'settle',
    'failed not settled within 60 s',
  ],
  [
    'begann       Dauer  was             soll_s  Ergebnis',
    'Licht',
    'Dither',
    'Beruhigung',
    'Fehler nicht ruhig binnen 60 s',
  ],
] as const;

it.each(TABLES)('a column of times titled as beginnings is one, whatever else a row states: %s', async (...words) => {
  const [head, expose, dither, settle, failed] = words;
  const row = (second: number, took: string, what: string, asked = '', result = 'ok'): string => {
    const time = new Date(T0 + second * 1000).toISOString().slice(11, 19);
    return `${time}    ${took.padStart(6)}  ${what.padEnd(15)}  ${asked.padStart(5)}  ${result}`;
  };
  const rounds = Array.from({ length: 12 }, (_, i) => i * 400);
  const lines = rounds.flatMap((second, i) => [
    row(second, (2 + i / 10).toFixed(1), dither),
    i % 2 === 0 ? row(second + 4, '60.0', settle, '', failed) : row(second + 4, (11 + i / 10).toFixed(1), settle),
    row(second + 70, (300 + i / 10).toFixed(1), expose, '300'),
  ]);
  const log = ['Night of 2026-10-14', head, ...lines];
  const { events } = await read(drafted(log).yaml, `${log.join('\n')}\n`, { zone: 'UTC' });
  const at = (name: string): number[] => events.flatMap(({ event, atMs }) => (event === name ? [atMs - T0] : []));
  expect(at('dither-begin')).toEqual(rounds.map((second) => second * 1000));
  expect(at('settling-begin')).toEqual(rounds.map((second) => (second + 4) * 1000));
});
