import { describe, expect, it } from 'vitest';
import { filtersNumbered } from '../../src/reconstruct/filters-numbered.js';
import { light } from '../support/events.js';

const of = (train: string, filter: string) => light(train, '21:00:00', 300, { filter });

describe('filters that are places in a wheel', () => {
  it('are reported train by train, with the line that names them', () => {
    const found = filtersNumbered([of('heron', 'Ha'), of('wren', '5'), of('wren', 'slot 2'), of('wren', '5')]);
    expect(found.map(({ code }) => code)).toEqual(['filters-numbered']);
    expect(found[0]?.message).toContain('The headers of wren name its filters 5 and slot 2');
    expect(found[0]?.message).toContain('filters: { Ha: [ "5" ] }');
  });

  it('are none that a name or a width says', () => {
    expect(filtersNumbered(['Ha 5', 'OIII', '7nm', 'L', 'O3', '656', 'B', 'S2'].map((f) => of('wren', f)))).toEqual([]);
  });
});
