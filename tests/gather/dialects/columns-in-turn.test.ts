import { describe, expect, it } from 'vitest';
import { legendOf } from '../../../src/gather/dialects/draft/legend.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** 14 October 2026, 20:00 UTC. */
const T0 = Date.UTC(2026, 9, 14, 20);

interface Said {
  readonly at: number;
  readonly train: 'heron' | 'wren';
  readonly text: string;
}

/** Two trains that expose on their own: what each says goes into a column of its own. */
function nightOf(train: Said['train'], seconds: number, from: number): Said[] {
  return Array.from({ length: Math.floor(9000 / (seconds + 9)) }, (_, i): Said[] => {
    const at = from + i * (seconds + 9);
    const file = `${train}_${String(i + 1).padStart(3, '0')}.fits`;
    return [
      { at, train, text: `a] Ha ${seconds} s, number ${i + 1}` },
      { at: at + seconds, train, text: `a[ number ${i + 1}` },
      { at: at + seconds + 2, train, text: `b  ${file}` },
      ...(i % 5 === 0
        ? [
            { at: at + seconds + 3, train, text: 'c] Ha' },
            { at: at + seconds + 7, train, text: 'c[ Ha' },
          ]
        : []),
    ];
  }).flat();
}

const NIGHT = [...nightOf('heron', 170, 0), ...nightOf('wren', 290, 13)].sort((a, b) => a.at - b.at);
const LEGEND = [
  '  a]  exposure begins (filter, length)   a[  exposure ends   b   file saved',
  '  c]  filter wheel starts   c[  filter wheel there',
];

describe('a table with a column of sentences for each train', () => {
  it('is read column by column, by what its legend says of marks of two signs', async () => {
    const lines = [
      'Cierzo Hill, night of 2026-10-14, UTC',
      ...LEGEND,
      'heron                          | clock    | wren',
      ...NIGHT.map(({ at, train, text }) => {
        const clock = new Date(T0 + at * 1000).toISOString().slice(11, 19);
        const [left, right] = train === 'heron' ? [text, ''] : ['', text];
        return `${left.padEnd(31)}| ${clock} | ${right}`.trimEnd();
      }),
    ];
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`);
    for (const train of ['heron', 'wren'] as const)
      for (const [event, mark] of [
        ['exposure-begin', 'a]'],
        ['exposure-end', 'a['],
        ['frame-saved', 'b '],
        ['filter-begin', 'c]'],
        ['filter-end', 'c['],
      ] as const)
        expect(
          log.events.filter((one) => one.event === event && one.train === train).map(({ atMs }) => (atMs - T0) / 1000),
          `${train} ${event}\n${yaml}`,
        ).toEqual(NIGHT.filter((one) => one.train === train && one.text.startsWith(mark)).map(({ at }) => at));
  });

  it('has marks of several signs set wide apart', () => {
    expect(Object.fromEntries(legendOf(LEGEND.slice(0, 1)).words)).toEqual({
      'a]': 'exposure begins (filter, length)',
      'a[': 'exposure ends',
      b: 'file saved',
    });
  });
});
