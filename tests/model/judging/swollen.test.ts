import { describe, expect, it } from 'vitest';
import { swollen } from '../../../src/model/judging/swollen.js';
import { light } from '../../support/events.js';
import { around, causesBy } from './around.js';
import { stars, usual } from './measured.js';

const frame = light('wren', '21:00:00', 300);

// Limits: common practice, no source.
describe('swollen stars', () => {
  const verdict = (fwhm: number, more = {}) =>
    causesBy(swollen, frame, around({ stars: stars({ fwhm, ...more }), usual: usual() }))[0]?.verdict;

  it('make a frame doubtful above 1.3 times the usual and lose it above 1.8', () => {
    expect(verdict(3.8)).toBeUndefined();
    expect(verdict(4)).toBe('doubtful');
    expect(verdict(5.5)).toBe('lost');
  });

  it('are measured across a trail, so that one harm is not two causes', () => {
    expect(verdict(4, { elongation: 1.9, agreement: 0.95 })).toBeUndefined();
    expect(verdict(5.6, { elongation: 1.9, agreement: 0.95 })).toBe('doubtful');
  });

  it('that run into one another, so that none has a width, make a frame doubtful where others have one', () => {
    const none = { stars: stars({ fwhm: null, elongation: null, agreement: null }), usual: usual() };
    expect(causesBy(swollen, frame, around(none))).toMatchObject([
      { verdict: 'doubtful', evidence: expect.stringContaining('none of 200 stars has a width') },
    ]);
    expect(causesBy(swollen, frame, around({ ...none, usual: usual({ fwhm: null }) }))).toEqual([]);
    expect(causesBy(swollen, frame, around({ ...none, stars: stars({ fwhm: null, count: 8 }) }))).toEqual([]);
  });

  it('are given in arcseconds of the sensor’s pixels, in which they are measured, however these were binned', () => {
    const train = {
      id: 'wren',
      role: 'companion',
      focalLengthMm: 600,
      pixelSizeUm: 3.76,
      pixelScaleArcsec: 2.585,
    } as const;
    const [cause] = causesBy(swollen, frame, around({ train, stars: stars({ fwhm: 6 }), usual: usual() }));
    expect(cause?.evidence).toContain('FWHM 7.76″');
  });

  it('say of which frames the usual is', () => {
    const [cause] = causesBy(
      swollen,
      frame,
      around({ stars: stars({ fwhm: 6 }), usual: usual({ of: 'train', frames: 30 }) }),
    );
    expect(cause?.evidence).toContain('of the train’s 30 frames: too few of its target and filter');
  });
});
