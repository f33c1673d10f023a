import { describe, expect, it } from 'vitest';
import { sheetRows } from '../../../src/gather/dialects/sheet/sheet-rows.js';
import { wordsBesideNumbers } from '../../../src/gather/dialects/sheet/words-beside-numbers.js';
import { drafted } from './support/drafted.js';

const clock = (seconds: number): string => new Date(seconds * 1000).toISOString().slice(11, 19);

/** Twelve rounds of two trains from 20:00. */
const ROUNDS = Array.from({ length: 12 }, (_, i) => 72_000 + i * 330);
const HEAD = ['Cierzo Hill, UTC', 'night of 2026-10-14', ''];

function eventsIn(lines: readonly string[]): Record<string, number> {
  const found = new Map<string, number>();
  for (const { events, count, lasts } of drafted(lines).report.rules)
    for (const event of [...events.map((one) => one.event), ...(lasts === undefined ? [] : ['(end)'])])
      found.set(event, (found.get(event) ?? 0) + count);
  return Object.fromEntries(found);
}

describe('a row for each round of both trains', () => {
  it.each([
    ['open', 'filter', 's', 'nudge after it', 'settling after it'],
    ['abre', 'filtro', 's', 'desplazamiento tras la ronda', 'estabilización'],
  ])('is rows of each train, and what went on beside them: %s', (open, filter, seconds, nudge, settling) => {
    const names = ['heron', 'wren'].flatMap((train) => [open, filter, seconds].map((name) => `${train} ${name}`));
    const rows = ROUNDS.map((at, i) => {
      const beside =
        i % 3 === 2 ? [`2.1 px, ${clock(at + 305)} + 4 s`, `${clock(at + 309)}-${clock(at + 321)}`] : ['', ''];
      return [
        i + 1,
        clock(at),
        'Ha',
        300,
        clock(at + 2),
        'L',
        i === 5 ? 'cut after 120 of 300 (cloud)' : 300,
        ...beside,
      ];
    });
    const text = [...HEAD, ['no', ...names, nudge, settling].join(';'), ...rows.map((row) => row.join(';'))];
    expect(sheetRows(text)?.slice(-13)).toContain(`${clock(72_965)}\t${clock(72_969)}\t${nudge} 2.1 px,`);
    expect(eventsIn(text)).toMatchObject({ 'dither-begin': 4, 'dither-end': 4, 'settling-begin': 4 });
    expect(eventsIn(text)['exposure-begin']).toBeGreaterThanOrEqual(23);
  });

  it('has a table for each group of columns that the line above names', () => {
    const rows = ROUNDS.map((at, i) =>
      [i + 1, i % 3 === 0 ? clock(at - 20) : '', i % 3 === 0 ? '2.1' : '', 'Ha', clock(at), clock(at + 300)]
        .concat(['L', clock(at + 2), clock(at + 302)])
        .join(','),
    );
    const above = ',mount,,heron,,,wren,,';
    const rest = sheetRows([...HEAD, above, 'no,nudge,px,filter,open,closed,filter,open,closed', ...rows]) ?? [];
    expect(rest).toContain('side\tno\tfilter\topen\tclosed');
    expect(rest).toContain('no\tnudge\tpx');
    expect(rest.filter((line) => line.startsWith('wren\t'))).toHaveLength(12);
    expect(rest.filter((line) => line.endsWith('\t2.1'))).toHaveLength(4);
  });
});

describe('tables beside each other', () => {
  it.each([' || ', ' | ', ' ‖ '])('are one below the other, cut at %s', (stroke) => {
    const side = (cells: readonly string[]): string =>
      cells.map((cell, i) => cell.padEnd([4, 10, 10, 6][i] ?? 0)).join('');
    const names = ['no', 'open', 'closed', 'filter'];
    const rows = ROUNDS.map((at, i) =>
      [
        side([`${i + 1}`, clock(at), clock(at + 300) + (i === 3 ? '*' : ''), 'Ha']),
        side([`${i + 1}`, clock(at + 2), clock(at + 302), 'L']),
      ].join(stroke),
    );
    const text = [...HEAD, `${'HERON'.padEnd(30)}${stroke}WREN`, side(names) + stroke + side(names), ...rows];
    const tables = sheetRows([...text, '', '* = given up early']) ?? [];
    expect(tables).toContain('side\tno\topen\tclosed\tfilter\tmark');
    expect(tables).toContain(`HERON\t4\t${clock(72_990)}\t${clock(73_290)}\tHa\t*`);
    expect(tables.filter((line) => line.startsWith('WREN\t'))).toHaveLength(12);
    expect(eventsIn(text)).toMatchObject({ 'exposure-begin': 24, 'exposure-end': 24 });
  });

  it('keep the words beside their numbers in a column of remarks', () => {
    const rows = [...Array.from({ length: 11 }, () => ['300']), ['120 of 300 (cloud)']];
    expect(wordsBesideNumbers({ heading: '', columns: ['s'], rows }).rows.at(-1)).toEqual(['120', 'of (cloud)']);
    expect(wordsBesideNumbers({ heading: '', columns: ['s'], rows: rows.slice(1, -1) }).columns).toEqual(['s']);
  });
});
