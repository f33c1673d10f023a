import { describe, expect, it } from 'vitest';
import { changesIn } from '../../../src/gather/dialects/draft/kinds/changes.js';
import type { FieldLine } from '../../../src/gather/dialects/draft/kinds/field-line.js';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 19, 0);
const iso = (s: number): string => new Date(T0 + s * 1000).toISOString();

/** What a property of a device becomes, and the event that this is. */
type Change = readonly [s: number, property: string, value: string | boolean, event: string];

const one = (s: number, i: number): Change[] => [
  [s, 'heron.shutter', 'open', 'exposure-begin heron'],
  [s + 2, 'wren.shutter', 'open', 'exposure-begin wren'],
  [s + 300, 'heron.shutter', 'shut', 'exposure-end heron'],
  [s + 302, 'wren.shutter', 'shut', 'exposure-end wren'],
  [s + 303, 'heron.file', `h_${i}.fits`, 'frame-saved heron'],
  [s + 304, 'wren.file', `w_${i}.fits`, 'frame-saved wren'],
  [s + 305, 'mount.mode', 'nudging', 'dither-begin'],
  [s + 308, 'mount.mode', 'tracking', 'dither-end'],
  [s + 309, 'guider.settled', false, 'settling-begin'],
  [s + 320, 'guider.settled', true, 'settling-end'],
];
const NIGHT: readonly Change[] = [
  [0, 'mount.mode', 'slewing', 'slew-begin'],
  [40, 'mount.mode', 'tracking', 'slew-end'],
  [42, 'heron.wheel', 'turning', 'filter-begin heron'],
  [43, 'wren.wheel', 'turning', 'filter-begin wren'],
  [47, 'heron.wheel', 'L', 'filter-end heron'],
  [48, 'wren.wheel', 'Ha', 'filter-end wren'],
  ...Array.from({ length: 12 }, (_, i) => one(60 + i * 330, i)).flat(),
];
const EXPECTED = NIGHT.map(([s, , , event]) => `${iso(s)} ${event}`);

/** The same as records that state the old value and the new one. */
const linesOf = (before: string, now: string, isTable: boolean): string[] => {
  const last = new Map<string, string | boolean>();
  const rows = NIGHT.map(([s, of, value]) => {
    const old = last.get(of) ?? null;
    last.set(of, value);
    return isTable
      ? [iso(s), of, old ?? '', value].join(';')
      : JSON.stringify({ t: iso(s), of, [now]: value, [before]: old });
  });
  return isTable ? [['t', 'of', before, now].join(';'), ...rows] : rows;
};

describe('a log of what properties were and are', () => {
  it.each([
    ['was', 'now', false],
    ['old', 'new', true],
    // The names say nothing.
    ['b', 'a', true],
  ])('tells what begins and what is over, %s and %s', async (before, now, isTable) => {
    const lines = linesOf(before, now, isTable);
    const { yaml } = drafted(lines);
    expect(loadDialect('draft.yaml', yaml).warnings).toEqual([]);
    const found = brief(await read(yaml, lines.join('\n'))).map((text) => text.replace(/ \{.*$/, ''));
    expect(found.sort(), yaml).toEqual([...EXPECTED].sort());
  });
});

describe('what is no log of changes', () => {
  const linesOfFields = (rows: readonly Readonly<Record<string, string>>[]): FieldLine[] =>
    rows.map((row, line) => ({ fields: new Map(Object.entries(row)), line, atMs: T0 + line * 1000 }));

  it('is one that raises something and lowers it: its records have one of both at a time', () => {
    const rows = Array.from({ length: 40 }, (_, i) => ({
      train: i % 4 < 2 ? 'heron' : 'wren',
      [i % 2 === 0 ? 'raise' : 'lower']: i % 8 < 4 ? 'exposing' : 'settling',
      file: `${i}.fits`,
    }));
    expect(changesIn(linesOfFields(rows), [])).toBeNull();
  });

  it('is one of the states of devices alone', () => {
    const states = ['idle', 'slewing', 'tracking', 'nudging'];
    const rows = Array.from({ length: 60 }, (_, i) => ({
      who: i % 2 === 0 ? 'mount' : 'guider',
      was: states[Math.floor(i / 2 + 3) % 4] ?? '',
      is: states[Math.floor(i / 2) % 4] ?? '',
    }));
    expect(changesIn(linesOfFields(rows), [])).toBeNull();
  });
});
