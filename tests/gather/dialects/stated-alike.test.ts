import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const stamp = (s: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, s)).toISOString().slice(0, 19);

/** A night of dithers, with only the ends of settling logged, and four periods of guiding. */
const NIGHT = Array.from({ length: 40 }, (_, i): (readonly [number, string])[] => {
  const at = i * 330;
  return [
    ...(i % 10 === 0
      ? ([
          [at - 25, 'guiding started, settling'],
          [at - 10, 'settled'],
        ] as const)
      : []),
    [at, 'exposure begins, 300 s'],
    [at + 300, 'exposure ends'],
    ...(i % 10 === 9
      ? ([[at + 302, 'guiding stopped']] as const)
      : ([
          [at + 302, 'dither begins'],
          [at + 305, 'dither ends'],
          [at + 318, 'settled'],
        ] as const)),
  ];
}).flat();

it('a guiding start that names the settling stays one, although settling ends are far more frequent', async () => {
  const lines = NIGHT.map(([at, text]) => `${stamp(at + 60)} ${text}`);
  const events = brief(await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'utc' }));
  const of = (name: string): string[] => events.filter((text) => text.split(' ')[1] === name);
  expect(of('guiding-begin')).toHaveLength(4);
  expect(of('guiding-end')).toHaveLength(4);
  expect(of('settling-end')).toHaveLength(40);
});
