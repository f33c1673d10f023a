import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const clock = (second: number): string => new Date(T0 + second * 1000).toISOString().slice(11, 19);

/** The words for a day, a dither with its size, settling, an end and a measurement. */
const TREES = [
  ['day: Wednesday', 'dither', 'size', 'settling', 'ends', 'voltage'],
  ['Tag: Mittwoch', 'Dither', 'Weite', 'Beruhigung', 'endet', 'Spannung'],
] as const;

it.each(TREES)('a named time below the node of a tree is when that is over: %s', async (...words) => {
  const [day, dither, size, settling, ends, voltage] = words;
  const rounds = Array.from({ length: 12 }, (_, i) => i * 400);
  const lines = rounds.flatMap((second, i) => [
    ...[`  ${clock(second)} ${dither}`, `    ${size}: 3.${i % 10} px`, `    ${ends}: ${clock(second + 3)}`],
    ...[`  ${clock(second + 3)} ${settling}`, `    ${ends}: ${clock(second + 15 + i)}`],
    ...[`  ${clock(second + 200)} ${voltage}`, `    12 V`],
  ]);
  const log = [`${day} 2026-10-14`, ...lines];
  const { events } = await read(drafted(log).yaml, `${log.join('\n')}\n`, { zone: 'UTC' });
  const at = (name: string): number[] =>
    events.flatMap(({ event, atMs }) => (event === name ? [(atMs - T0) / 1000] : []));
  expect(at('dither-begin')).toEqual(rounds);
  expect(at('dither-end')).toEqual(rounds.map((second) => second + 3));
  expect(at('settling-end')).toEqual(rounds.map((second, i) => second + 15 + i));
});
