import { describe, expect, it } from 'vitest';
import { offersFor } from '../../../src/gather/dialects/draft/classify/offers.js';
import type { EventName } from '../../../src/model/index.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

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

  it('is, for what comes often, the side that is missing as often, then what the log tells nothing of', () => {
    const [often] = kindsOf(rounds(12, 600, (from) => [[from, 'quieted']]));
    if (often === undefined) throw new Error('no kind');
    const offers = offersFor(often, ['guiding-end'], counts);
    expect(offers.slice(0, 4)).toEqual(['guiding-end', 'dither-end', 'settling-end', 'settling-begin']);
    // As many exposures end as begin, and a hold comes once.
    expect(offers).not.toContain('exposure-end');
    expect(offers).not.toContain('hold-end');
  });

  it('begins with what is likeliest, and is nothing for what happens in every log', () => {
    expect(offersFor(kindLike(kinds, 'the gale'), ['guiding-end'], counts)[0]).toBe('guiding-end');
    expect(offersFor(kindLike(kinds, 'camera'), [], counts)).toEqual([]);
  });
});
