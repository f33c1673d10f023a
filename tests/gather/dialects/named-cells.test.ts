import { describe, expect, it } from 'vitest';
import { documentTree } from '../../../src/gather/dialects/document/document-records.js';
import { draftDialect, loadDialect, readDialectLog, readSample } from '../../../src/gather/dialects/index.js';
import { withLog } from '../lines/support/temp-log.js';

/** A night of exposures of five minutes, every third with a dither behind it: when each begins and ends. */
const ROWS = Array.from({ length: 30 }, (_, i) => {
  const at = (seconds: number): string =>
    new Date(Date.UTC(2026, 8, 16, 20) + (i * 330 + seconds) * 1000).toISOString();
  const dither = [[at(303), at(309), 'dither', '']];
  return [[at(0), at(300), 'exposure', 'Ha'], ...(i % 3 === 2 ? dither : [])];
}).flat();
const NAMES = ['from', 'until', 'what', 'filter'];

type Cell = (text: string, column: number) => string;

function table(row: string, head: Cell, cell: Cell, isEmptyLeftOut: boolean): string {
  const line = (cells: readonly string[], of: Cell): string =>
    cells.map((text, i) => (text === '' && isEmptyLeftOut ? '' : of(text, i))).join('');
  const rows = ROWS.map((cells) => ` <${row}>${line(cells, cell)}</${row}>`);
  return ['<night site="x">', ` <head>${line(NAMES, head)}</head>`, ...rows, '</night>'].join('\n');
}

describe('an XML document whose rows do not name their cells', () => {
  it.each<[string, string]>([
    [
      'number',
      table(
        'row',
        (text, i) => `<n c="${i}">${text}</n>`,
        (text, i) => `<v c="${i}">${text}</v>`,
        true,
      ),
    ],
    [
      'letter',
      table(
        'r',
        (text, i) => `<c id="${'abcd'[i]}">${text}</c>`,
        (text, i) => `<c of="${'abcd'[i]}">${text}</c>`,
        true,
      ),
    ],
    [
      'position',
      table(
        'tr',
        (text) => `<th>${text}</th>`,
        (text) => `<td>${text}</td>`,
        false,
      ),
    ],
  ])('has its row of names for them, by %s', async (_, text) => {
    const read = await withLog(
      text,
      async (root, file) => {
        const { dialect } = loadDialect('tern.yaml', draftDialect(await readSample(root, file)).yaml);
        return dialect === null ? null : await readDialectLog(root, file, dialect, { zone: 'utc' });
      },
      'night.xml',
    );
    const expected = ROWS.flatMap(([from = '', until = '', what = '']) => [
      { atMs: Date.parse(from), event: `${what}-begin` },
      { atMs: Date.parse(until), event: `${what}-end` },
    ]).sort((a, b) => a.atMs - b.atMs);
    expect(read?.events.map(({ atMs, event }) => ({ atMs, event }))).toEqual(expected);
    expect(read?.events[0]).toMatchObject({ filter: 'Ha' });
  });

  it('is as it was where its rows have other cells than names', () => {
    const [text, other] = ['<v c="1">x</v><v c="2">y</v>', '<v c="7">x</v><v c="8">y</v>'];
    const names = '<h><n c="1">a</n><n c="2">b</n><n c="3">c</n></h>';
    const rows = (cells: string): string => `<r>${cells}</r>`.repeat(6);
    expect(documentTree(`<t>${names}${rows(text)}</t>`)?.children[1]?.texts).toEqual(
      new Map([
        ['a', 'x'],
        ['b', 'y'],
      ]),
    );
    expect(documentTree(`<t>${names}${rows(other)}</t>`)?.children[1]?.texts).toEqual(new Map());
  });
});
