import { describe, expect, it } from 'vitest';
import { sheetRows } from '../../../src/gather/dialects/sheet/sheet-rows.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** States of two trains and a mount, a row for each change; a stroke says `as above`. */
const NIGHT = Array.from({ length: 5 }, (_, i): string[][] => {
  const clock = (s: number): string => new Date((72_000 + i * 700 + s) * 1000).toISOString().slice(11, 19);
  const changes: readonly (readonly [seconds: number, column: number, state: string])[] = [
    [0, 1, 'posa R 300 s'],
    [2, 2, 'posa Ha 600 s'],
    [300, 1, 'scarica'],
    [304, 1, 'ferma'],
    [306, 3, 'ruota verso G'],
    [311, 3, 'ferma'],
    [602, 2, 'scarica'],
    [605, 2, 'ferma'],
    [610, 4, 'dither'],
    [613, 4, 'si assesta'],
    [625, 4, 'insegue M 16'],
    [630, 5, 'in pausa'],
    [650, 5, 'corregge'],
  ];
  return changes.map(([s, column, state]) => [clock(s), ...[1, 2, 3, 4, 5].map((k) => (k === column ? state : '"'))]);
}).flat();

describe('marks for as above', () => {
  it.each(['|', ';', '\t'])('are the value above, also single strokes, between %j', (delimiter) => {
    const lines = ['a,b,c', ...Array.from({ length: 6 }, (_, i) => `${i},",L`), '7,,"'].map((line) =>
      line.replaceAll(',', delimiter),
    );
    lines.splice(1, 0, ['0', 'x', 'L'].join(delimiter));
    expect(sheetRows(lines)?.slice(-2)).toEqual(['5\tx\tL', '7\t\tL']);
  });

  it('are none where quotes are quotes', () => {
    expect(sheetRows(['a;b;c', ...Array.from({ length: 9 }, (_, i) => `${i};"x ""y""";"L"`)])).toBeNull();
  });

  it('show what goes on in a table of states, whichever mark a hand writes', async () => {
    const rows = NIGHT.map((cells, i) =>
      cells.map((cell) => (cell === '"' && i % 2 === 1 ? '〃' : cell).padEnd(14)).join('| '),
    );
    const lines = [
      'Serata del 12 settembre 2026, ora UTC',
      '',
      ['ora', 'heron', 'wren', 'ruota heron', 'montatura', 'guida'].map((name) => name.padEnd(14)).join('| '),
      ['19:59:00', 'ferma', 'ferma', 'ferma', 'insegue M 16', 'corregge'].map((cell) => cell.padEnd(14)).join('| '),
      ...rows,
    ];
    const { yaml } = drafted(lines, 'serata.txt');
    const { events } = await read(yaml, `${lines.join('\n')}\n`);
    const count = (event: string, train?: string): number =>
      events.filter((one) => one.event === event && one.train === train).length;
    expect(count('exposure-begin', 'heron'), yaml).toBe(5);
    expect(count('exposure-end', 'wren')).toBe(5);
    expect(count('dither-begin')).toBe(5);
    expect(count('settling-end')).toBe(5);
  });
});
