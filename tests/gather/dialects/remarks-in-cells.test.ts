import { describe, expect, it } from 'vitest';
import { sheetRows } from '../../../src/gather/dialects/sheet/sheet-rows.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 19);
const stamp = (s: number): string => new Date(T0 + s * 1000).toISOString();
const clock = (s: number): string => stamp(s).slice(11, 19);

interface Words {
  readonly head: readonly string[];
  readonly dither: string;
  readonly wheel: string;
  readonly apart: string;
}

/** A row an exposure, beyond midnight, and in its last cell what happened until the next, with times of its own. */
function sheetOf({ head, dither, wheel, apart }: Words, delimiter: string): string[] {
  const row = (cells: readonly string[]): string => cells.join(delimiter);
  return [
    row(['Cierzo Hill', 'heron', '', '', '', '']),
    row(['', '2026-10-14', '', '', '', '']),
    row(head),
    ...Array.from({ length: 60 }, (_, i) => {
      const at = 600 + i * 340;
      const remarks = [
        ...(i % 3 === 0 ? [`${dither} ${clock(at + 305)}-${clock(at + 311)} (2.5 px)`] : []),
        ...(i % 6 === 0 ? [`${wheel} ${clock(at + 315)}-${clock(at + 320)}`] : []),
      ];
      return row([String(i + 1), 'L', '300', clock(at), clock(at + 300), remarks.join(apart)]);
    }),
  ];
}
const nightOf = (every: number, from: number): string[] =>
  Array.from({ length: 60 }, (_, i) => i)
    .filter((i) => i % every === 0)
    .map((i) => stamp(600 + i * 340 + from));

describe('remarks with times of their own in the cells of a table', () => {
  it.each([
    [
      'English',
      {
        head: ['no', 'filter', 'exposure s', 'begin', 'end', 'remarks'],
        dither: 'dither',
        wheel: 'filter wheel',
        apart: ' / ',
      },
      ';',
    ],
    [
      'Spanish',
      {
        head: ['nº', 'filtro', 'exposición s', 'inicio', 'fin', 'notas'],
        dither: 'desplazamiento',
        wheel: 'rueda de filtros',
        apart: '; ',
      },
      '\t',
    ],
  ] as const)('are rows of a table of their own: %s', async (_, words, delimiter) => {
    const lines = sheetOf(words, delimiter);
    const { yaml } = drafted(lines);
    const { events } = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC', sessionDate: '2026-10-14' });
    const found = (event: string): string[] =>
      events.filter((one) => one.event === event).map(({ atMs }) => new Date(atMs).toISOString());
    expect(found('exposure-begin'), yaml).toEqual(nightOf(1, 0));
    expect(found('exposure-end')).toEqual(nightOf(1, 300));
    expect(found('dither-begin'), yaml).toEqual(nightOf(3, 305));
    expect(found('dither-end')).toEqual(nightOf(3, 311));
    expect(found('filter-begin'), yaml).toEqual(nightOf(6, 315));
    expect(found('filter-end')).toEqual(nightOf(6, 320));
  });

  it('leave what has no time in its row, and words that stand alone before a time', () => {
    const cells = Array.from(
      { length: 6 },
      (_, i) => `stopped by hand / ready 21:0${String(i)}:10 / calm 21:0${String(i)}:40`,
    );
    const rows = sheetRows(['no;begin;remarks', ...cells.map((cell, i) => `${String(i)};21:0${String(i)}:00;${cell}`)]);
    expect(rows?.slice(1, 2)).toEqual(['0\t21:00:00\tstopped by hand']);
    expect(rows?.slice(-2)).toEqual(['21:05:10\t\tready', '21:05:40\t\tcalm']);
  });

  it('stay where they are if they are few', () => {
    expect(sheetRows(['no;begin;remarks', '1;21:00:00;a 21:00:10 / b 21:00:20', '2;21:05:00;'])).toBeNull();
  });
});
