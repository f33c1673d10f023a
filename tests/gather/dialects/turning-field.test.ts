import { expect, it } from 'vitest';
import { turningPairs } from '../../../src/gather/dialects/draft/kinds/binary-states.js';
import { turningField } from '../../../src/gather/dialects/draft/kinds/turning-field.js';
import { TemplateTree } from '../../../src/gather/dialects/draft/template-tree.js';
import { tokenize } from '../../../src/gather/dialects/draft/tokens.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const stamp = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, seconds)).toISOString().slice(0, 19);

type Row = readonly [at: number, unit: string, what: string, is: string, value: string];

/** A list of alarms in which all that begins and ends is ORTA and ABITA, words of no language that is known. */
const ROWS = Array.from({ length: 24 }, (_, i): Row[] => {
  const at = i * 220;
  const span = (from: number, to: number, unit: string, what: string): Row[] => [
    [at + from, unit, what, 'ORTA', ''],
    [at + to, unit, what, 'ABITA', ''],
  ];
  return [
    [at, 'NORTH', 'exposure', 'ORTA', '180'],
    [at + 180, 'NORTH', 'exposure', 'ABITA', '180'],
    ...span(183, 190, 'NORTH', 'waiting for dither'),
    ...span(187, 190, 'MOUNT', 'dither moving'),
    ...span(190, 206, 'GUIDER', 'settling'),
    ...(i % 8 === 5 ? span(40, 70, 'GUIDER', 'guide star lost') : []),
  ];
})
  .flat()
  .sort((a, b) => a[0] - b[0]);
const LINES = ['time;unit;what;is;value', ...ROWS.map(([at, ...cells]) => [stamp(at), ...cells].join(';'))];

const TEXT = ROWS.map(([at, unit, what, is, value]) => `${stamp(at)} ${unit.padEnd(8)} ${what} ${is} ${value}`.trim());

/** The same by the names of two fields: `ORTA="exposure"`. */
const TAGS = [
  '<night>',
  ...ROWS.map(
    ([at, unit, what, is, value]) =>
      `  <sign at="${stamp(at)}" unit="${unit}" ${is.toLowerCase()}="${what}"${value === '' ? '' : ` s="${value}"`}/>`,
  ),
  '</night>',
];

it.each([
  ['in a table', LINES],
  ['in a text', TEXT],
  ['as the names of two fields', TAGS],
])('two words that take turns, whatever is reported, say that it begins and that it is over: %s', async (_, lines) => {
  const { yaml } = drafted(lines);
  const counts = new Map<string, number>();
  for (const text of brief(await read(yaml, `${lines.join('\n')}\n`))) {
    const name = text.split(' ')[1] ?? '';
    counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  // The waits that are over are none that begin.
  expect(Object.fromEntries([...counts].sort())).toEqual({
    'dither-begin': 24,
    'dither-end': 24,
    'dither-ready': 24,
    'exposure-begin': 24,
    'exposure-end': 24,
    'settling-begin': 24,
    'settling-end': 24,
    'star-gap-begin': 3,
    'star-gap-end': 3,
  });
});

it('two cameras that take turns are none', () => {
  const tags = ['focus', 'exposure', 'filter', 'dither wait', 'file'];
  const lines = Array.from({ length: 80 }, (_, i) => ({
    fields: new Map([
      ['what', tags[Math.floor(i / 2) % tags.length] ?? ''],
      ['camera', i % 2 === 0 ? 'north' : 'south'],
    ]),
    line: i + 1,
    atMs: i * 1000,
  }));
  expect(turningField(['what', 'camera'], lines)).toBeNull();
});

it('nor are they in a text', () => {
  const tokens = (text: string) => tokenize(text, false);
  const sorted = (what: string, words: readonly string[]) => {
    const tree = new TemplateTree(false, new Set(), new Set(), tokens);
    const texts = Array.from({ length: 8 }, (_, i) => `${what} ${words[i % 2] ?? ''} then`);
    const template = texts.map((text, i) => tree.add(text, i + 1)).find((one) => one !== null);
    if (template === null || template === undefined) throw new Error('no template');
    return { template, messages: texts };
  };
  const pairsOf = (...reported: ReturnType<typeof sorted>[]) => turningPairs(reported, tokens);
  expect(
    pairsOf(sorted('settling is now', ['orta', 'abita']), sorted('guide star lost is now', ['orta', 'abita'])),
  ).toEqual([['abita', 'orta']]);
  expect(pairsOf(sorted('waits for dither, says', ['north', 'south']), sorted('focus of', ['north', 'south']))).toEqual(
    [],
  );
});
