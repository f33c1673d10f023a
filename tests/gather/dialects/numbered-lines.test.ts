import { describe, expect, it } from 'vitest';
import { legendOf, withLegend } from '../../../src/gather/dialects/draft/legend.js';
import { markBetween } from '../../../src/gather/dialects/draft/kinds/marks-between.js';
import { unnumbered } from '../../../src/gather/dialects/draft/layout/line-numbers.js';
import { saysSidereal } from '../../../src/gather/dialects/draft/time/sidereal.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const HEAD = [
  'day of the first line: 14 OCT 2026, UTC',
  'who   HR heron   WR wren   MT mount   GD guider',
  'codes OPN shutter opens, filter and seconds      CLS shutter closes      KPT picture kept, name',
  '      DIT dither starts, px    DID dither done    STL settling starts    STD settled',
];

/** A night of coded lines and its truth; `mark` separates the parts, and one line in seven is late or sent twice. */
function night(mark: string, clock: (iso: string) => string): { lines: string[]; truth: string[] } {
  const told: [at: number, text: string, truth: string][] = [];
  for (let cycle = 0, at = 60; cycle < 8; cycle++, at += 640) {
    for (const [who, seconds] of [
      ['HR', 240],
      ['WR', 290],
    ] as const)
      for (let i = 0, from = at; i < 2; i++, from += seconds + 4) {
        told.push([from, `${who}/OPN/Ha ${seconds}`, 'exposure-begin']);
        told.push([from + seconds, `${who}/CLS`, 'exposure-end']);
        told.push([from + seconds + 2, `${who}/KPT/${who}${cycle}${i}.fits`, 'frame-saved']);
      }
    told.push([at + 600, `MT/DIT/${2 + cycle / 4}`, 'dither-begin']);
    told.push([at + 602, 'MT/DID', 'dither-end']);
    told.push([at + 602, 'GD/STL', 'settling-begin']);
    told.push([at + 618, 'GD/STD', 'settling-end']);
  }
  told.sort((a, b) => a[0] - b[0]);
  const iso = (at: number): string => new Date(T0 + at * 1000).toISOString();
  const lines = told.map(([at, text], i) => [String(i + 1).padStart(4, '0'), clock(iso(at)), text].join('/'));
  for (let i = 7; i < lines.length; i += 7) lines.splice(i - 1, 2, lines[i] ?? '', lines[i - 1] ?? '');
  return {
    lines: [...HEAD, ...lines].map((line, i) => (i < HEAD.length ? line : line.replaceAll('/', mark))),
    truth: told.map(([at, , event]) => `${iso(at)} ${event}`),
  };
}

describe('lines with numbers, in parts with a mark between', () => {
  const compact = (iso: string): string => iso.slice(11, 19).replaceAll(':', '');
  for (const [mark, clock] of [
    ['/', compact],
    ['|', (iso: string) => iso.slice(11, 19)],
  ] as const)
    it(`are read in the order of their numbers: ${mark}`, async () => {
      const { lines, truth } = night(mark, clock);
      const { yaml } = drafted(lines);
      const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
      const reported = brief(log).map((line) => line.split(' ').slice(0, 2).join(' '));
      expect(reported.sort()).toEqual(truth.sort());
      expect(log.events.filter(({ event, train }) => event === 'exposure-end' && train === 'wren')).toHaveLength(16);
    });

  it('may be sent twice; a clock or a measurement is no such number', () => {
    const texts = Array.from({ length: 40 }, (_, i) => `${i + 1}/2000${10 + i}/a`);
    const lines = [...texts.slice(0, 30), texts[4] ?? '', ...texts.slice(30)].map((text, i) => ({
      text,
      number: i + 1,
    }));
    expect(unnumbered(lines)?.inOrder?.map(({ text }) => text)).toEqual(
      texts.map((text) => text.replace(/^\d+\//, '')),
    );
    expect(unnumbered(lines.map(({ number }) => ({ text: `${number * 37}/12/a`, number })))).toBeNull();
    // Cells between tabs: rows of a table that numbers them.
    const rows = lines.map(({ text, number }) => ({ text: text.replaceAll('/', '\t'), number }));
    expect(unnumbered(rows)).toBeNull();
  });

  it('separate nothing if most do not begin so', () => {
    expect(markBetween(Array.from({ length: 20 }, (_, i) => `HR/OPN/Ha ${i}`))).toEqual({ mark: '/', count: 2 });
    expect(markBetween(Array.from({ length: 20 }, (_, i) => `frame${i}/a saved`))).toBeNull();
  });

  it('mean what the head says of their codes, whatever reason is behind them', () => {
    const legend = legendOf(
      [
        'codes OPN shutter opens      CLS shutter closes',
        '      CUT closed early, reason   STL calm starts   STD calm',
      ],
      ['HR CUT ROOF', 'HR OPN #', 'HR CLS', 'GD STL', 'GD STD'],
    );
    expect(withLegend('HR CUT ROOF', legend).wording).toContain('closed early');
    expect(withLegend('HR OPN #', legend).wording).toBe('shutter opens (HR OPN #)');
    expect(saysSidereal('GRE guiding resumed    LST guide star lost')).toBe(false);
    expect(saysSidereal('all times LST')).toBe(true);
  });
});
