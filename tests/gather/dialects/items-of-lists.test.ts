import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const at = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(0, 19).replace('T', ' ');

/** Frames of two trains; the time stands below what begins an item, as YAML 1.2.2 (2.1, collections) sets lists. */
const FRAMES = Array.from({ length: 30 }, (_, i) => ({
  rohr: i % 2 === 0 ? 'heron' : 'wren',
  from: Math.floor(i / 2) * 160 + (i % 2),
}));

it('reads items of a list whose first field stands behind a hyphen', async () => {
  const lines = [
    'nacht: 2026-10-14',
    'aufnahmen:',
    ...FRAMES.flatMap(({ rohr, from }, i) => [
      `  - rohr: ${rohr}`,
      `    beginn: ${at(from)}`,
      '    sekunden: 150',
      '    filter: Ha',
      `    datei: ${rohr}_${i}.fits`,
    ]),
  ];
  const { events } = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  const of = (name: string): (readonly [number, string | undefined])[] =>
    events.flatMap(({ event, atMs, train }) => (event === name ? [[(atMs - T0) / 1000, train] as const] : []));
  expect(of('exposure-begin')).toEqual(FRAMES.map(({ rohr, from }) => [from, rohr]));
  expect(of('exposure-end')).toEqual(FRAMES.map(({ rohr, from }) => [from + 150, rohr]));
});

it('does not take lines of text with hyphens in front for such items', () => {
  const lines = Array.from({ length: 30 }, (_, i) => [
    `- ${at(i * 160)} exposure begins, 150 s`,
    `- ${at(i * 160 + 150)} exposure ends`,
  ]).flat();
  expect(drafted(lines).report.layout).toBeNull();
});
