import { expect, it } from 'vitest';
import { isLeft } from '../../../src/gather/dialects/draft/kinds/turned-states.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

// Over midnight, where the day of the year changes.
const T0 = Date.UTC(2026, 7, 14, 23);
const NIGHT: readonly (readonly [at: number, signal: string, state: 0 | 1, truth: string])[] = Array.from(
  { length: 14 },
  (_, i) => 60 + i * 360,
).flatMap(
  (at, i) =>
    [
      [at, 'SHUTTER', 1, 'exposure-begin'],
      [at + 300, 'SHUTTER', 0, 'exposure-end'],
      ...(i % 2 === 0
        ? ([
            [at + 305, 'DITHER', 1, 'dither-begin'],
            [at + 308, 'DITHER', 0, 'dither-end'],
            [at + 309, 'SETTLING', 1, 'settling-begin'],
            [at + 325, 'SETTLING', 0, 'settling-end'],
          ] as const)
        : []),
    ] as const,
);

/** Every edge of every signal, among measurements and the states at power-up. */
function table(old: string, now: string, isOldFirst: boolean): string[] {
  const row = (at: number, signal: string, was: string, is: string): string => {
    const iso = new Date(T0 + at * 1000).toISOString();
    const day = Math.floor((T0 + at * 1000 - Date.UTC(2026, 0, 1)) / 86_400_000) + 1;
    return [day, iso.slice(11, 23), signal, ...(isOldFirst ? [was, is] : [is, was])].join(';');
  };
  return [
    '# clock: UTC, DAY = day of the year 2026',
    `DAY;TIME;SIGNAL;${isOldFirst ? `${old};${now}` : `${now};${old}`}`,
    ...['SHUTTER', 'DITHER', 'SETTLING'].map((signal) => row(0, signal, '?', '0')),
    ...NIGHT.flatMap(([at, signal, state]) => [
      row(at, signal, String(1 - state), String(state)),
      row(at + 1, 'BOX_TEMP', (9 - at / 500).toFixed(1), (9 - (at + 90) / 500).toFixed(1)),
    ]),
  ];
}

it.each([
  ['OLD', 'NEW', true],
  ['ALT', 'NEU', true],
  ['PREVIOUS', 'VALUE', false],
] as const)('reads signals by the state that they turn to: %s, %s', async (old, now, isOldFirst) => {
  const lines = table(old, now, isOldFirst);
  const { yaml } = drafted(lines);
  const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
  const reported = brief(log).map((line) => line.split(' ').slice(0, 2).join(' '));
  expect(reported).toEqual(NIGHT.map(([at, , , event]) => `${new Date(T0 + at * 1000).toISOString()} ${event}`));
});

it('takes an unknown state for one that is left, and two equal ones for none', () => {
  expect([isLeft('?', '0'), isLeft('0', '1'), isLeft('1', '1'), isLeft('12', '0'), isLeft('', '0')]).toEqual([
    true,
    true,
    false,
    false,
    false,
  ]);
});
