import { describe, expect, it } from 'vitest';
import { codeEntries } from '../../../src/gather/dialects/draft/code-entries.js';
import { drafted } from './support/drafted.js';
import { brief, codes, read } from './support/read.js';

/** What a controller does again and again, seconds after 20:00 UTC on 14 October 2026: code, what it means, values. */
const T0 = Date.UTC(2026, 9, 14, 20);
const MEANT = {
  'exposure-begin': ['10', 'początek naświetlania'],
  'exposure-end': ['11', 'koniec naświetlania'],
  'frame-saved': ['13', 'plik zapisany'],
  'dither-begin': ['21', 'początek ditheringu'],
  'dither-end': ['22', 'koniec ditheringu'],
  'settling-begin': ['24', 'początek uspokajania'],
  'settling-end': ['25', 'uspokojone'],
} as const;
type Name = keyof typeof MEANT;
const NAMES = Object.keys(MEANT) as Name[];

const NIGHT = Array.from({ length: 30 }, (_, i) => {
  const at = i * 330;
  const filter = i < 15 ? 'Ha' : 'OIII';
  return [
    { at, name: 'exposure-begin', cells: [filter, '300', 'IC 5070'] },
    { at: at + 301, name: 'exposure-end', cells: [filter, '-', '-'] },
    { at: at + 304, name: 'frame-saved', cells: [`heron_${i}.fits`, '-', '-'] },
    { at: at + 305, name: 'dither-begin', cells: ['3,5', '-', '-'] },
    { at: at + 308, name: 'dither-end', cells: ['-', '-', '-'] },
    { at: at + 309, name: 'settling-begin', cells: ['-', '-', '-'] },
    { at: at + 322, name: 'settling-end', cells: ['-', '-', '-'] },
  ] as const;
}).flat();

const rows = (codeOf: (name: Name) => string): string[] =>
  NIGHT.map(({ at, name, cells }) => [T0 + at * 1000, 'H', codeOf(name), ...cells].join('\t'));

async function eventsIn(lines: readonly string[]): Promise<string[]> {
  const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`);
  expect(codes(log)).toEqual([]);
  return brief(log).map((line) => line.split(' ').slice(0, 2).join(' '));
}
const TRUE = NIGHT.map(({ at, name }) => `${new Date(T0 + at * 1000).toISOString()} ${name}`);

describe('rows that tell by codes what happens, and a legend for these', () => {
  it('are read by a table of codes in comments, which names what stands in the columns behind them', async () => {
    const cells: Partial<Record<Name, string>> = {
      'exposure-begin': 'filtr\tsekundy\tobiekt',
      'dither-begin': 'piksele\t-\t-',
    };
    const legend = NAMES.map((name) => `# ${MEANT[name].join('\t')}\t${cells[name] ?? '-\t-\t-'}`);
    const lines = [
      '# jednostka: H = heron, W = wren',
      '# kod\tznaczenie\tp1\tp2\tp3',
      ...legend,
      'czas\tjednostka\tkod\tp1\tp2\tp3',
      ...rows((name) => MEANT[name][0]),
    ];
    expect(await eventsIn(lines)).toEqual(TRUE);
    const { yaml } = drafted(lines);
    expect(yaml).toContain("'kod': '^10$'");
    expect(yaml).toContain("pixels: 'p1'");
  });

  it('are read by a legend at the foot, with codes in brackets behind what they mean', async () => {
    const hex = (name: Name): string => `0x${(NAMES.indexOf(name) * 3 + 26).toString(16).toUpperCase()}`;
    const lines = [
      'czas\tjednostka\tkod\tp1\tp2\tp3',
      ...rows(hex),
      ...NAMES.map((name) => `# ${MEANT[name][1]} (${hex(name)})`),
    ];
    expect(await eventsIn(lines)).toEqual(TRUE);
  });
});

describe('messages that begin with a code', () => {
  const clock = (at: number): string => new Date(T0 + at * 1000).toISOString().slice(11, 19);
  const said = (codeOf: (name: Name) => string): string[] =>
    NIGHT.map(
      ({ at, name, cells }) => `[${clock(at)}] ${codeOf(name)} ${cells.filter((cell) => cell !== '-').join(' ')}`,
    );

  it('are read by a legend, whose own lines are no events', async () => {
    const lines = [
      'night of 2026-10-14, times in UTC',
      ...NAMES.map((name) => `${MEANT[name][0]} = ${MEANT[name][1]}`),
      ...said((name) => MEANT[name][0]),
    ];
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`);
    expect(brief(log).map((line) => line.split(' ').slice(0, 2).join(' '))).toEqual(TRUE);
    expect(yaml).toMatch(/when: '\^10 /);
    expect(yaml).not.toContain('początek');
  });

  it('are left to choose where nothing explains the codes', () => {
    const lines = ['night of 2026-10-14, times in UTC', ...said((name) => MEANT[name][0])];
    expect(drafted(lines).yaml).not.toContain('początek');
  });
});

describe('the entries of a legend', () => {
  const entriesOf = (...texts: string[]): object =>
    Object.fromEntries(
      [...codeEntries(texts, new Set(['1', '2', 'A7', '0x1A']))].map(([code, { meaning }]) => [code, meaning]),
    );

  it('stand one or several on a line, in front of their codes or behind them', () => {
    expect(entriesOf('# 1 = exposure begins', '; 2: exposure ends')).toEqual({
      1: 'exposure begins',
      2: 'exposure ends',
    });
    expect(entriesOf('codes: 1=begin; 2=end; A7=dither')).toEqual({ 1: 'begin', 2: 'end', A7: 'dither' });
    expect(entriesOf('begin (1), end (2), dither [0x1A]')).toEqual({ 1: 'begin', 2: 'end', '0x1A': 'dither' });
    expect(entriesOf('A7 -> dither')).toEqual({ A7: 'dither' });
  });

  it('are no numbers of sentences', () => {
    expect(entriesOf('version 2 of the controller', 'made in 2026, page 1')).toEqual({});
  });
});
