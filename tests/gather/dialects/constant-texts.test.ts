import { expect, it } from 'vitest';
import { withConstantTexts } from '../../../src/gather/dialects/draft/kinds/constant-texts.js';
import type { Kind, Slot } from '../../../src/gather/dialects/draft/kinds/kind.js';
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

/** Records worded so, with fields that always say the same. */
function kindWith(wording: string, fields: Readonly<Record<string, string>>): Kind {
  const slots = Object.entries(fields).map(
    ([path, value]): Slot => ({ path, before: [path], after: '', type: 'text', values: [value], perLine: [value] }),
  );
  const hints = Object.keys(fields).join(' ');
  const [count, firstLine, examples, summary, lead] = [8, 1, [], wording, 0];
  return { count, firstLine, examples, summary, wording, lead, hints, slots, lines: [1], atMs: [0], when: () => ({}) };
}

const wordings = (kind: Kind): string | undefined => withConstantTexts([kind])[0]?.wording;

it('a field that says a wait tells what is waited for, where the rest says nothing', () => {
  expect(wordings(kindWith('libre', { espera: 'dithering' }))).toBe('libre espera dithering');
  expect(wordings(kindWith('libre', { filtro: 'dithering' }))).toBe('libre');
});

it('what says less than the words it stands beside leaves these alone', () => {
  expect(wordings(kindWith('sensor', { note: 'slowly going down' }))).toBe('sensor');
  expect(wordings(kindWith('pause', { why: 'waits for the dither of the mount' }))).toBe(
    'waits for the dither of the mount',
  );
});
