import { describe, expect, it } from 'vitest';
import { columnTitles, withTitles } from '../../../src/gather/dialects/draft/layout/column-titles.js';
import { textKinds } from '../../../src/gather/dialects/draft/kinds/text-kinds.js';

describe('the head of a table that is laid out by blanks', () => {
  const HEAD = 'time      what       filter   length';
  const ROWS = [
    '21:00:00  exposure   Ha          300',
    '21:06:00  exposure   Ha          240',
    '21:12:00  exposure   L            60',
  ];

  it('names its columns, whichever line it is', () => {
    expect(columnTitles(['log of one night', HEAD]).map(({ title }) => title)).toEqual([
      'time',
      'what',
      'filter',
      'length',
    ]);
    expect(columnTitles(['log of one night', '12  13  14  15', 'a word or two'])).toEqual([]);
  });

  it('names one column by two words with a stroke between', () => {
    expect(columnTitles(['time      what       sec    object / remarks']).map(({ title }) => title)).toEqual([
      'time',
      'what',
      'sec',
      'object / remarks',
    ]);
  });

  it('says what the values below are, but for those that say it themselves', () => {
    const messages = ROWS.map((row, i) => ({ text: row.slice(10), line: i + 1, atMs: i * 360_000 }));
    const [kind] = textKinds(messages, false);
    if (kind === undefined) throw new Error('no kind');
    const named = withTitles(kind, columnTitles([HEAD]), (line) => ROWS[line - 1] ?? '');
    const length = named.slots.find(({ type }) => type === 'number');
    expect(length?.before[0]).toBe('length');
    expect(named.slots.find(({ type }) => type === 'filter')?.before).not.toContain('filter');
    // The pattern still catches the renamed slot.
    if (length === undefined) throw new Error('no slot');
    expect(named.when(new Map([[length, 'seconds']]))).toContain('(?<seconds>');
  });
});
