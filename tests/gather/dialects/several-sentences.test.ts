import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 14);
const clock = (second: number): string => {
  const time = new Date(T0 + second * 1000);
  return `${String(time.getUTCHours() % 12 || 12).padStart(2, '0')}${time.toISOString().slice(13, 19)} PM`;
};

const DIARIES = [
  ['Night of 2026-10-14', 'the mount began a dither of 3.1 px', 'the guiding was paused'],
  ['Nacht van 2026-10-14', 'begon een dither van 3,1 px', 'werd het autoguiden gepauzeerd'],
] as const;

it.each(DIARIES)(
  'a line of several sentences with times is left to the reader, and no rule runs on into it: %s',
  async (...words) => {
    const [night, dither, paused] = words;
    const lines = Array.from({ length: 24 }, (_, i) => {
      const [one, other] = [`At ${clock(i * 400)} ${dither}.`, `At ${clock(i * 400 + 200)} ${paused}.`];
      return i % 4 === 0 ? [`${other.replace(clock(i * 400 + 200), clock(i * 400 - 9))} ${one}`] : [one, other];
    }).flat();
    const log = [night, ...lines];
    const { events } = await read(drafted(log).yaml, `${log.join('\n')}\n`, { zone: 'UTC' });
    const begins = events.flatMap(({ event, atMs }) => (event === 'dither-begin' ? [(atMs - T0) / 1000] : []));
    expect(begins).toEqual(Array.from({ length: 24 }, (_, i) => i * 400).filter((_, i) => i % 4 !== 0));
  },
);
