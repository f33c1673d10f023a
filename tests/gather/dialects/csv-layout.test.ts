import { describe, expect, it } from 'vitest';
import { csvLayout } from '../../../src/gather/dialects/draft/layout/csv-layout.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const HEADER = ['end', 'dur_s', 'what', 'target', 'filter', 'note'];
const at = (i: number): string => new Date(Date.UTC(2026, 9, 14, 20, 5 * i)).toISOString();
const ROWS = Array.from({ length: 12 }, (_, i) =>
  i % 3 === 0
    ? [at(i), `${11 + i}.5`, 'settling done', '', '', '']
    : [at(i), '300.0', 'exposure done', 'M 33', 'Ha', ''],
);

describe('a table', () => {
  it.each([
    ['that ends its rows in empty cells', '\t', (cells: readonly string[]) => cells.join('\t')],
    ['that leaves empty cells at the end out', ';', (cells: readonly string[]) => cells.join(';').replace(/;+$/, '')],
  ])('%s is read as one, its begins too', async (_, delimiter, write) => {
    const lines = ['# a table', HEADER.join(delimiter), ...ROWS.map(write)];
    expect(csvLayout(lines)).toEqual({ delimiter, columns: HEADER, headerIndex: 1 });
    const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`);
    const counts = (event: string): number => log.events.filter((one) => one.event === event).length;
    expect([counts('exposure-begin'), counts('exposure-end')]).toEqual([8, 8]);
    expect([counts('settling-begin'), counts('settling-end')]).toEqual([4, 4]);
  });

  it('has its names in the header row, not in the list of its marks above', () => {
    const rows = Array.from({ length: 12 }, (_, i) => `${i + 1};22:${10 + i}:00;exposure;${i % 2 === 0 ? '+' : '-'};x`);
    const columns = ['№', 'time', 'what', 'mark', 'more'];
    const marks = 'marks: + begins; - ends; × broken off; = stated; ? ready';
    expect(csvLayout([marks, columns.join(';'), ...rows])).toEqual({ delimiter: ';', columns, headerIndex: 1 });
  });

  it('is no prose with decimal commas, whatever line it begins with', () => {
    const lines = [
      '# cabane, deux tubes : heron, wren',
      ...Array.from({ length: 20 }, (_, i) => `[22:00:${10 + i}] guidage : AD +0,${10 + i}" DÉC -1,${30 + i}" calme`),
    ];
    expect(csvLayout(lines)).toBeNull();
  });

  it('that would make nothing of a log gives way to its sentences', () => {
    const clock = (i: number): string => new Date(Date.UTC(2026, 9, 14, 21) + i * 20_000).toISOString();
    const lines = [
      'hut, two tubes: heron, wren',
      ...Array.from({ length: 200 }, (_, i) =>
        i % 16 === 1
          ? `${clock(i)} shutter of heron opens for 300 s`
          : i % 16 === 0 && i > 0
            ? `${clock(i)} shutter of heron closes`
            : `${clock(i)} air ${i % 7} deg, dry, calm`,
      ),
    ];
    expect(csvLayout(lines)).not.toBeNull();
    expect(drafted(lines).yaml).toMatch(/event: exposure-begin.*event: exposure-end/s);
  });

  it('may have decimal commas in quotes', () => {
    const rows = Array.from({ length: 12 }, (_, i) => `"0,${10 + i}","1,${30 + i}",moved`);
    expect(csvLayout(['ra,dec,what', ...rows])?.delimiter).toBe(',');
  });

  it('is no prose with commas', () => {
    const lines = [
      'dome, mount, camera, wheel',
      ...Array.from({ length: 20 }, (_, i) => `at ${i}, it moved${', and on'.repeat(i % 3)}`),
    ];
    expect(csvLayout(lines)).toBeNull();
  });

  it('set in columns may leave the remarks at the ends of most rows out, under a head that its cells stand below', () => {
    const cells = (clock: string, ...rest: readonly string[]): string =>
      [clock.padEnd(10), ...rest.map((cell) => cell.padEnd(14))].join('').trimEnd();
    const rows = Array.from({ length: 20 }, (_, i) =>
      cells(
        `21:00:${10 + i}`,
        i % 2 === 0 ? 'exposing' : 'at rest',
        'tracking',
        'guiding',
        i % 5 === 0 ? 'thin haze' : '',
      ),
    );
    const head = cells('clock', 'east tube', 'mount', 'guider', 'remark');
    expect(csvLayout(['a hut', head, ...rows])).toEqual({
      delimiter: 'blanks',
      columns: ['clock', 'east tube', 'mount', 'guider', 'remark'],
      headerIndex: 1,
    });
    // A line of five words over four columns is no head of theirs.
    expect(csvLayout(['a hut', 'five  words  of  a  heading', ...rows])).toBeNull();
  });
});
