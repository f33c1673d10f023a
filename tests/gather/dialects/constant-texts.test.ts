import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const clock = (seconds: number): string => new Date(Date.UTC(2026, 1, 20, 20, 0, seconds)).toISOString().slice(11, 19);

/** A night in blocks: what a pause is for stands in a field that says the same in each. */
const BLOCKS = Array.from({ length: 12 }, (_, i) => {
  const at = i * 700;
  const frame = (nth: number, from: number) => [
    `[frame ${2 * i + nth}]`,
    '  filter: Ha',
    '  exposure: 240 s',
    `  begin: ${clock(from)}`,
    `  end: ${clock(from + 240)}`,
    `  saved: ${clock(from + 241)} wren_${2 * i + nth}.fits`,
    '',
  ];
  return [
    ...frame(1, at),
    ...frame(2, at + 245),
    '[pause]',
    `  since: ${clock(at + 488)}`,
    '  reason: idle, waiting for the dither of the mount',
    '',
  ];
}).flat();

it('what all blocks of a kind say alike tells what they are, where their title does not', async () => {
  const lines = ['Night of 2026-02-20, UTC', '', ...BLOCKS];
  const { yaml } = drafted(lines);
  const ready = brief(await read(yaml, `${lines.join('\n')}\n`)).filter((text) => text.includes('dither-ready'));
  expect(ready).toHaveLength(12);
});
