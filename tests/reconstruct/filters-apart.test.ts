import { describe, expect, it } from 'vitest';
import { filtersApart } from '../../src/reconstruct/filters-apart.js';
import { light } from '../support/events.js';

const of = (train: string, filter: string) => light(train, '21:00:00', 300, { filter });

describe('a filter under two names', () => {
  it('is reported with the line that makes it one', () => {
    const found = filtersApart([of('heron', 'H alpha 5nm'), of('wren', 'Ha'), of('heron', 'L'), of('wren', 'L')]);
    expect(found).toMatchObject([{ code: 'filters-apart' }]);
    expect(found[0]?.message).toContain('“H alpha 5nm” (heron) and “Ha” (wren)');
    expect(found[0]?.message).toContain('filters: { Ha: [ "H alpha 5nm" ] }');
  });

  it('may be two filters of one wheel', () => {
    expect(filtersApart([of('heron', 'Ha 3nm'), of('heron', 'Ha 7nm')])).toEqual([]);
  });

  it('is none where the names mean nothing known', () => {
    expect(filtersApart([of('heron', 'slot 1'), of('wren', 'slot 2')])).toEqual([]);
  });
});
