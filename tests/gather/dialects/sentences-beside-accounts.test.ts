import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const stamp = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, seconds)).toISOString().slice(0, 19);

/** A ledger: from and to tell who has what, the reason says what happened; most reasons name a file. */
const LEDGER = Array.from({ length: 100 }, (_, i) => [
  [i * 190 + 180, 'lens', 'night', 180, `exposure finished on M ${30 + (i % 4)}`],
  [i * 190 + 182, 'shelf', 'lens frames', '', `stored left_${1000 + i}.fits`],
  ...(i % 2 === 1
    ? [
        [i * 190 + 183, 'mount', 'moves', '', 'dither move started'],
        [i * 190 + 186, 'moves', 'mount', '', 'dither move finished'],
      ]
    : []),
  ...(i % 7 === 3
    ? [
        [i * 190 + 60, 'guide', 'losses', '', 'guide star lost'],
        [i * 190 + 90, 'losses', 'guide', '', 'guide star found again'],
      ]
    : []),
])
  .flat()
  .sort((a, b) => Number(a[0]) - Number(b[0]))
  .map(([at, ...cells], i) => [i + 1, stamp(Number(at)), ...cells].join(';'));
const LINES = ['no;time;from;to;sum;reason', ...LEDGER];

it('the sentence of a row tells what happened where it says more than the fields beside it', async () => {
  const { yaml } = drafted(LINES);
  const counts = new Map<string, number>();
  for (const text of brief(await read(yaml, `${LINES.join('\n')}\n`))) {
    const name = text.split(' ')[1] ?? '';
    counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  expect(counts.get('frame-saved')).toBe(100);
  expect(counts.get('exposure-end')).toBe(100);
  expect(counts.get('dither-begin')).toBe(50);
  expect(counts.get('dither-end')).toBe(50);
  expect(counts.get('star-gap-begin')).toBe(14);
  expect(counts.get('star-gap-end')).toBe(14);
});
