import { expect, it } from 'vitest';
import { numbersBlocks } from '../../../src/gather/dialects/draft/time/numbered-blocks.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const clock = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(11, 19);

it('ends exposures after the seconds that they were open, not when their files were written', async () => {
  const lines = Array.from({ length: 40 }, (_, i) =>
    JSON.stringify({
      who: 'heron',
      what: 'exposure',
      asked: 180,
      at: clock(i * 190),
      open: 180.1,
      file: `a_${i}.fits`,
      written: clock(i * 190 + 184),
    }),
  );
  const { yaml } = drafted(lines);
  const { events } = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC', sessionDate: '2026-10-14' });
  const of = (name: string): number[] =>
    events.flatMap(({ event, atMs }) => (event === name ? [(atMs - T0) / 1000] : []));
  const each = (after: number): number[] => Array.from({ length: 40 }, (_, i) => i * 190 + after);
  expect(of('exposure-begin')).toEqual(each(0));
  // Whether the length asked for or the measured one is taken, it is over then, to the second.
  expect(of('exposure-end').map(Math.floor)).toEqual(each(180));
  expect(of('frame-saved')).toEqual(each(184));
});

it('ends an exposure where its line says that it was cut short, and others after their length', async () => {
  const dialect = `dialect: 1
time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: session }
csv: { delimiter: ";", header: [at, length, cut], time: at }
lines: [{ when: { length: "." }, event: [exposure-begin, exposure-abort], at: { exposure-abort: cut }, lasts: length }]
`;
  const log = 'at;length;cut\n20:00:00;300;\n20:05:10;300;20:06:00\n20:06:30;300;\n';
  const { events } = await read(dialect, log, { zone: 'UTC', sessionDate: '2026-10-14' });
  expect(events.map(({ event, atMs }) => `${event} ${(atMs - T0) / 1000}`)).toEqual([
    'exposure-begin 0',
    'exposure-end 300',
    'exposure-begin 310',
    'exposure-abort 360',
    'exposure-begin 390',
    'exposure-end 690',
  ]);
});

it('takes numbers of blocks for no times, but seconds in front of every line', () => {
  const blocks = Array.from({ length: 30 }, (_, i) => [`[${i + 1}] shutter`, `  open ${i * 300}.20`, '']).flat();
  const seconds = Array.from({ length: 60 }, (_, i) => `[${i}] ra 0.3 dec 0.1`);
  expect(numbersBlocks('[{elapsed}]', blocks)).toBe(true);
  expect(numbersBlocks('[{elapsed}]', seconds)).toBe(false);
  expect(
    numbersBlocks(
      '[{elapsed}]',
      blocks.map((line) => line.replace(/^\[(\d+)\]/, (_, n) => `[${Number(n) * 30}]`)),
    ),
  ).toBe(false);
});
