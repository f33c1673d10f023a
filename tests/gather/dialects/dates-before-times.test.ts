import { expect, it } from 'vitest';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import type { EventName } from '../../../src/model/index.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const at = (seconds: number): string => {
  const text = new Date(T0 + seconds * 1000).toISOString();
  return `${text.slice(8, 10)}.${text.slice(5, 7)}. ${text.slice(11, 19)} hrs`;
};
const block = (title: string, from: number, to: number, ...more: string[]): string[] => [
  `[${title}]`,
  `  begun: ${at(from)}`,
  `  ended: ${at(to)}`,
  ...more.map((line) => `  ${line}`),
  '',
];

it('takes the word in front of a day and month for what the time behind them is', async () => {
  const lines = [
    'pier book, year 2026, UTC',
    '',
    ...Array.from({ length: 12 }, (_, i) => [
      ...(i === 3 || i === 6 ? block('guide star lost', i * 340 + 80, i * 340 + 111) : []),
      ...block(`exposure ${i}`, i * 340, i * 340 + 300, `file: p${i}.fits, written ${at(i * 340 + 303)}`),
      ...block('dither', i * 340 + 304, i * 340 + 307),
      ...block('settling', i * 340 + 307, i * 340 + 320),
    ]).flat(),
  ];
  const { events } = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  const times = (name: EventName): number[] =>
    events.filter(({ event }) => event === name).map(({ atMs }) => (atMs - T0) / 1000);
  const rounds = (after: number): number[] => Array.from({ length: 12 }, (_, i) => i * 340 + after);
  expect(times('exposure-end')).toEqual(rounds(300));
  expect(times('frame-saved')).toEqual(rounds(303));
  expect(times('dither-begin')).toEqual(rounds(304));
  expect(times('settling-end')).toEqual(rounds(320));
  expect(times('star-gap-begin')).toEqual([1100, 2120]);
  expect(times('star-gap-end')).toEqual([1131, 2151]);
});

it('takes the end of a loss for the star’s return, and what stops with it for no return', () => {
  const best = (text: string): string | undefined =>
    [...wordEvidence(text)].sort((a, b) => b[1] - a[1]).map(([event]) => event)[0];
  expect(best('Leitstern fehlte Ende')).toBe('star-gap-end');
  expect(best('star lost, exposure stopped')).toBe('star-gap-begin');
});
