import { describe, expect, it } from 'vitest';
import { judgeFrame, type FrameStars, type UsualStars } from '../../../src/model/index.js';
import { light } from '../../support/events.js';
import { around } from './around.js';
import { stars, usual } from './measured.js';

const frame = light('wren', '21:00:00', 300);
const judged = (own: Partial<FrameStars>, ofOthers: Partial<UsualStars> = {}) =>
  judgeFrame(frame, around({ stars: stars(own), usual: usual(ofOthers) }));
const NONE = { count: 0, fwhm: null, elongation: null, agreement: null, flux: null };

describe('a frame that shows no sky', () => {
  it.each([
    ['saturated all over', { saturated: 1, background: 65_535, noise: 0 }, /100 % of its pixels are saturated/],
    ['of one value', { background: 1234, noise: 0 }, /all have one value: no sky/],
    [
      'of one value, rounded',
      { background: 1234, noise: 0.29 },
      /all have one value: no sky \(a shutter that stayed closed/,
    ],
    // Read noise alone: that of a dark of the same camera, common practice.
    ['of a cap', { background: 300, noise: 4 }, /hardly any light of the sky: noise 4.0 ADU where 12.0 is usual/],
    ['of a lamp', { background: 24_000, noise: 110 }, /many times the light of the sky: noise 110.0 ADU/],
  ])('%s is lost for that, and not for a cloud', (_, more, words) => {
    const { verdict, causes } = judged({ ...NONE, ...more });
    expect(verdict).toBe('lost');
    expect(causes.map(({ kind }) => kind)).toEqual(['no-sky']);
    expect(causes[0]?.evidence).toMatch(words);
  });

  it('is not one that a cloud hides, which sends some of the sky’s light, or some more', () => {
    for (const more of [
      { background: 360, noise: 9 },
      { background: 900, noise: 20 },
    ])
      expect(judged({ ...NONE, ...more }).causes.map(({ kind }) => kind)).toEqual(['dimmed']);
  });

  it('is not one with stars, nor one among frames that have none, nor one with nothing to compare', () => {
    expect(judged({ noise: 3, background: 350 }).verdict).toBe('kept');
    expect(judged({ ...NONE, noise: 3, background: 350 }, { count: 4 }).verdict).toBe('kept');
    expect(judged({ ...NONE, noise: 3, background: 350 }, { sky: null }).causes[0]?.kind).toBe('dimmed');
  });
});
