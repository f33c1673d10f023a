import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 3, 18, 19, 29, 30);
const instant = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString();
const clock = (seconds: number): string =>
  `${Math.floor(seconds / 3600)}:${String(Math.floor(seconds / 60) % 60).padStart(2, '0')}:${(seconds % 60).toFixed(1).padStart(4, '0').replace('.', ',')}`;

/** Steps of two trains that overlap, with their two ends as clocks since the head’s instant; a few have one end alone. */
const STEPS = Array.from({ length: 20 }, (_, i) => {
  const at = 300 + i * 400;
  return [
    { from: at, to: at + 300, who: 'heron', act: 'expozice Ha 300 s', note: `heron_${i}.fits` },
    { from: at + 2.5, to: at + 182.5, who: 'wren', act: 'expozice L 180 s', note: `wren_${i}.fits` },
    { from: at + 183, to: NaN, who: 'wren', act: 'čeká na dither', note: '' },
    { from: at + 310, to: at + 314, who: '', act: 'dither', note: '' },
    { from: at + 314, to: at + 330, who: '', act: 'ustálení', note: '' },
  ];
}).flat();

it('steps with both ends as clocks of elapsed time are read', async () => {
  const rows = STEPS.map(({ from, to, who, act, note }, i) =>
    [i + 1, clock(from), Number.isNaN(to) ? '' : clock(to), who, act, note].join(';'),
  );
  const lines = ['start (T+ 0:00:00);2026-04-18 19:29:30 UTC;;;;', 'č.;T+ od;T+ do;kdo;úkon;poznámka', ...rows];
  const { yaml } = drafted(lines, 'noc.csv');
  const events = brief(await read(yaml, `${lines.join('\n')}\n`)).map((text) => text.replace(/ \{.*/, ''));
  expect(events, yaml).toContain(`${instant(600)} exposure-end heron`);
  expect(events, yaml).toContain(`${instant(482.5)} exposure-end wren`);
  expect(events).toContain(`${instant(614)} dither-end`);
  expect(events).toContain(`${instant(630)} settling-end`);
});
