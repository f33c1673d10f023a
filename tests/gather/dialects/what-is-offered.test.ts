import { describe, expect, it } from 'vitest';
import { offersFor } from '../../../src/gather/dialects/draft/classify/offers.js';
import type { EventName } from '../../../src/model/index.js';
import { kindLike, kindsOf } from './support/kinds.js';

const kinds = kindsOf([
  [0, 'the gale is past'],
  [10, 'camera connected'],
]);
const counts = new Map<EventName, number>([
  ['exposure-begin', 40],
  ['exposure-end', 40],
  ['hold-begin', 1],
  ['dither-begin', 12],
]);

describe('what is offered for a line that nothing is made of', () => {
  it('is the side that the log does not tell, then what happens seldom', () => {
    const offers = offersFor(kindLike(kinds, 'the gale'), [], counts);
    expect(offers.slice(0, 2)).toEqual(['hold-end', 'dither-end']);
    expect(offers).toContain('flip-begin');
    expect(offers.length).toBeLessThanOrEqual(7);
  });

  it('begins with what is likeliest, and is nothing for what happens in every log', () => {
    expect(offersFor(kindLike(kinds, 'the gale'), ['guiding-end'], counts)[0]).toBe('guiding-end');
    expect(offersFor(kindLike(kinds, 'camera'), [], counts)).toEqual([]);
  });
});
