import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 18, 20);
const stamp = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(0, 19).replace('T', ' ');
const length = (seconds: number): string => new Date(seconds * 1000).toISOString().slice(12, 19);

/** From and to which second things take place, all night. */
const DONE = Array.from({ length: 80 }, (_, i) => [
  { what: 'exposure', from: i * 340, to: i * 340 + 300 },
  { what: 'dither', from: i * 340 + 304, to: i * 340 + 310 },
  { what: 'settling', from: i * 340 + 310, to: i * 340 + 322 + (i % 9) },
]).flat();

it('hours, minutes and seconds behind what is done are no time of day: it is over where its line stands', async () => {
  const lines = DONE.map(
    ({ what, from, to }) =>
      `${stamp(to)} heron: ${what} done after ${length(to - from)}${what === 'exposure' ? ` 300s Ha M 33` : ''}`,
  );
  const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  const found = log.events
    .filter(({ event }) => event.endsWith('-end'))
    .map(({ atMs, event }) => `${(atMs - T0) / 1000} ${event}`);
  expect(found.toSorted()).toEqual(DONE.map(({ what, to }) => `${to} ${what}-end`).toSorted());
});

it('times of day that lines state besides their own stay what they are', async () => {
  const lines = DONE.map(({ what, from, to }) => `${stamp(to)} heron: ${what} over, begun ${stamp(from).slice(11)}`);
  const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  const begins = log.events.filter(({ event }) => event === 'exposure-begin').map(({ atMs }) => (atMs - T0) / 1000);
  expect(begins).toEqual(DONE.filter(({ what }) => what === 'exposure').map(({ from }) => from));
});

it.each(['?', '-', ''])('a column of lengths may leave some out: %j', async (mark) => {
  const rows = DONE.map(({ what, from, to }, i) => {
    const isOut = what === 'settling' && i % 20 === 2;
    return { what, from, to: isOut ? null : to, text: isOut ? mark : length(to - from) };
  });
  const lines = [
    'begin;length;step;data',
    ...rows.map(({ what, from, text }) => `${stamp(from)};${text};${what};${what === 'exposure' ? 'M 33 Ha' : ''}`),
    ...[100, 9000].map((s) => `${stamp(s)};${mark};disk;90 GB free`),
  ];
  const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  const found = log.events.map(({ atMs, event }) => `${(atMs - T0) / 1000} ${event}`);
  const expected = rows.flatMap(({ what, from, to }) => [
    `${from} ${what}-begin`,
    ...(to === null ? [] : [`${to} ${what}-end`]),
  ]);
  expect(found.toSorted()).toEqual(expected.toSorted());
});
