import { describe, expect, it } from 'vitest';
import { byWork } from '../../../src/gather/dialects/draft/kinds/works.js';

const record = (fields: Record<string, string>, line: number) => ({
  fields: new Map(Object.entries(fields)),
  line,
  atMs: line * 1000,
});

describe('records that only say that something was done', () => {
  it('are distinguished by the field that names each work', () => {
    const lines = [
      record({ tag: 'moves', what: 'goto', target: 'M 76' }, 1),
      record({ tag: 'moves', what: 'centre', target: 'M 76' }, 2),
    ];
    expect(byWork(lines, ['tag'], [])).toEqual([
      { lines: lines.slice(0, 1), works: ['what'] },
      { lines: lines.slice(1), works: ['what'] },
    ]);
  });

  it('are not distinguished by a reason, nor where they name their work', () => {
    const why = [record({ tag: 'moves', why: 'filter' }, 1), record({ tag: 'moves', why: 'focus' }, 2)];
    expect(byWork(why, ['tag'], [])).toEqual([{ lines: why, works: [] }]);
    const named = [record({ tag: 'refocus', by: 'filter' }, 1), record({ tag: 'refocus', what: 'filter' }, 2)];
    expect(byWork(named, ['tag'], [])).toEqual([{ lines: named, works: [] }]);
  });
});
