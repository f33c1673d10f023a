import { describe, expect, it } from 'vitest';
import { dimmed } from '../../../src/model/judging/dimmed.js';
import { light } from '../../support/events.js';
import { around, causesBy, sky } from './around.js';
import { stars, usual } from './measured.js';

const frame = light('wren', '21:00:00', 300);

// Limits: common practice, no source.
describe('dimmed stars', () => {
  const of = (measured: ReturnType<typeof stars>, more = {}) =>
    causesBy(dimmed, frame, around({ stars: measured, usual: usual(), ...more }));

  it('make a frame doubtful below 0.7 of the best third’s flux and lose it below 0.3', () => {
    expect(of(stars({ flux: 0.71 }))).toEqual([]);
    expect(of(stars({ flux: 0.69 }))).toMatchObject([{ verdict: 'doubtful', by: 'pixels' }]);
    expect(of(stars({ flux: 0.2 }))).toMatchObject([{ verdict: 'lost' }]);
  });

  it('lose it when fewer than a tenth are left, too few though they are to measure', () => {
    expect(of(stars({ count: 20, flux: null }))).toMatchObject([{ verdict: 'lost' }]);
    expect(of(stars({ count: 3, flux: null }))[0]?.evidence).toContain('3 stars where the best third has 210');
    expect(of(stars({ count: 22, flux: null }))).toEqual([]);
  });

  it('are looked at where few are left whose light is all there: a bright sky hides the others', () => {
    expect(of(stars({ count: 12, flux: 0.98 }))).toMatchObject([{ verdict: 'doubtful' }]);
    expect(of(stars({ count: 12, flux: 0.98 }))[0]?.evidence).toContain('12 stars where the best third has 210, their');
    expect(of(stars({ count: 12, flux: 0.6 }))).toMatchObject([{ verdict: 'lost' }]);
  });

  it('are not counted where even the best third has few', () => {
    expect(of(stars({ count: 0, flux: null }), { usual: usual({ count: 8 }) })).toEqual([]);
  });

  it('say how much air they were seen through', () => {
    expect(of(stars({ flux: 0.5 }), { sky: sky({ airmass: 2.4 }) })[0]?.evidence).toContain('at airmass 2.40');
  });
});
