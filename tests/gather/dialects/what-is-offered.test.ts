import { describe, expect, it } from 'vitest';
import { linesTelling, offersFor, type Unmade } from '../../../src/gather/dialects/draft/classify/offers.js';
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

/** A kind that is likeliest these, of which neither the night nor the words say more. */
const likeliest = (...nearest: EventName[]): Unmade => ({ nearest, ranking: [], own: new Map() });

describe('what is offered for a line that nothing is made of', () => {
  it('is the side that the log does not tell, then what happens seldom', () => {
    const offers = offersFor(kindLike(kinds, 'the gale'), likeliest(), counts);
    expect(offers[0]).toBe('hold-end');
    expect(offers).toEqual(expect.arrayContaining(['flip-end', 'star-gap-end']));
    expect(offers).not.toContain('exposure-begin');
    expect(offers.length).toBeLessThanOrEqual(7);
  });

  it('is, for what comes often, what is as often, of which the log tells the other side or nothing', () => {
    const [often] = kindsOf(rounds(12, 600, (from) => [[from, 'quieted']]));
    if (often === undefined) throw new Error('no kind');
    const offers = offersFor(often, likeliest('guiding-end'), counts);
    expect(offers[0]).toBe('guiding-end');
    expect(offers).toEqual(expect.arrayContaining(['dither-end', 'settling-end', 'settling-begin']));
    // As many exposures end as begin, and a hold comes once.
    expect(offers).not.toContain('exposure-end');
    expect(offers).not.toContain('hold-end');
  });

  it('is what the words name before what they do not', () => {
    const own = new Map<EventName, number>([['centre-end', 0.4]]);
    const offers = offersFor(kindLike(kinds, 'the gale'), { nearest: [], ranking: [], own }, counts);
    expect(offers).toContain('centre-begin');
    expect(offersFor(kindLike(kinds, 'the gale'), likeliest(), counts)).not.toContain('centre-begin');
  });

  it('begins with what is likeliest, and is nothing for what happens in every log', () => {
    expect(offersFor(kindLike(kinds, 'the gale'), likeliest('guiding-end'), counts)[0]).toBe('guiding-end');
    expect(offersFor(kindLike(kinds, 'camera'), likeliest(), counts)).toEqual([]);
  });
});

describe('the lines that tell an event', () => {
  it('tell its beginning as well where they state how long it took', () => {
    const [gale, camera] = kinds;
    if (gale === undefined || camera === undefined) throw new Error('no kind');
    const taken = new Map([
      [gale, { event: 'hold-end' as const }],
      [camera, { event: 'slew-end' as const }],
    ]);
    const told = linesTelling(taken, { opensMs: new Map(), tookMs: new Map([[gale, [60_000]]]), rows: new Set() });
    expect(told).toEqual(
      new Map([
        ['hold-end', 1],
        ['hold-begin', 1],
        ['slew-end', 1],
      ]),
    );
  });
});
