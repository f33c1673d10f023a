import { describe, expect, it } from 'vitest';
import { swollen } from '../../../src/model/judging/swollen.js';
import { light } from '../../support/events.js';
import { activity, around, causesBy } from './around.js';
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

  it('are doubted where too few are left to lose the frame by, and its like have enough', () => {
    const few = (fwhm: number, count: number, best: number | null) =>
      causesBy(swollen, frame, around({ stars: stars({ fwhm, count }), usual: usual({ count: best }) }));
    expect(few(9, 9, 30)).toMatchObject([
      {
        verdict: 'doubtful',
        evidence: expect.stringMatching(/3\.00 × the usual .*of only 9 stars, and fewer than 10/),
      },
    ]);
    // Less than what loses a frame, stars that could be one alone, and a field that never has more.
    expect([few(5, 9, 30), few(9, 4, 30), few(9, 9, 9), few(9, 9, null)]).toEqual([[], [], [], []]);
    expect(few(9, 10, 30)[0]?.verdict).toBe('lost');
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

  it('are laid to the refocus before them, if it made the stars larger', () => {
    const run = activity('focus', '20:55:00', '20:57:00', { train: 'wren' });
    if (run.kind !== 'focus') throw new TypeError('no refocus');
    const size = { size: 3, zenith: 2.8 };
    const worseFocus = { run, before: size, after: { size: 4.2, zenith: 3.92 }, growth: 0.4, scatter: 0.05 };
    const [cause] = causesBy(swollen, frame, around({ stars: stars({ fwhm: 4.2 }), usual: usual(), worseFocus }));
    expect(cause?.evidence).toMatch(/; the refocus before it made the stars 40 % larger$/);
    expect(cause?.sources).toEqual(expect.arrayContaining([...run.sources]));
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
