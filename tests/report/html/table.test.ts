import { describe, expect, it } from 'vitest';
import { column, figures, withoutEmptyColumns, words, type Table } from '../../../src/report/html/view/table.js';

const TABLE: Table = {
  caption: 'rows',
  groups: [
    { label: '', span: 1 },
    { label: 'some', span: 2 },
    { label: 'none', span: 1 },
  ],
  columns: [column('name'), column('a', 'figures'), column('b', 'figures'), column('c', 'figures')],
  rows: [
    { cells: [words('one'), figures('—'), figures('0'), figures('—')] },
    { cells: [words('two'), figures('—'), figures('—'), figures('')] },
  ],
  foot: [{ kind: 'total', cells: [words('all'), figures(''), figures('0'), figures('3')] }],
};

describe('columns in which no row has anything', () => {
  it('are left out of heads, rows and foot; a zero stays', () => {
    const table = withoutEmptyColumns(TABLE);
    expect(table.columns.map(({ label }) => label)).toEqual(['name', 'b']);
    expect(table.rows.map(({ cells }) => cells.map(({ text }) => text))).toEqual([
      ['one', '0'],
      ['two', '—'],
    ]);
    expect(table.foot?.[0]?.cells.map(({ text }) => text)).toEqual(['all', '0']);
    expect(table.groups).toEqual([
      { label: '', span: 1 },
      { label: 'some', span: 1 },
    ]);
  });

  it('are looked for under every head of rows, and a table without rows stays as it is', () => {
    const bodies = [
      { head: 'x', rows: [{ cells: [words('one'), figures('—')] }] },
      { head: 'y', rows: [{ cells: [words('two'), figures('2')] }] },
    ];
    const some: Table = { caption: 'bodies', columns: [column('name'), column('a', 'figures')], rows: [], bodies };
    expect(withoutEmptyColumns(some)).toBe(some);
    const bare = { ...TABLE, rows: [] };
    expect(withoutEmptyColumns(bare)).toBe(bare);
  });
});
