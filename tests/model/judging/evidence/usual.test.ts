import { describe, expect, it } from 'vitest';
import { DEFAULT_RULES, usualStars, type Frame, type FrameStars } from '../../../../src/model/index.js';
import { light } from '../../../support/events.js';
import { stars } from '../measured.js';

interface Shot {
  readonly filter: string;
  readonly stars: FrameStars;
  readonly seconds?: number;
}

function usualOf(shots: readonly Shot[]) {
  const frames = shots.map(
    ({ filter, seconds = 300 }, i): Frame => ({ ...light('wren', '21:00:00', seconds), id: `f${i}`, filter }),
  );
  const measured = Object.fromEntries(shots.map((shot, i) => [`f${i}`, shot.stars]));
  return usualStars(frames, { frames: measured }, DEFAULT_RULES);
}

const many = (count: number, filter: string, more: Partial<FrameStars> = {}, seconds = 300): Shot[] =>
  Array.from({ length: count }, () => ({ filter, seconds, stars: stars(more) }));

describe('the usual', () => {
  it('is the median of the group, unmoved by a few bad frames', () => {
    const usual = usualOf([...many(7, 'Ha', { fwhm: 3 }), ...many(3, 'Ha', { fwhm: 9 })]);
    expect(usual.get('f0')).toMatchObject({ of: 'group', frames: 10, fwhm: 3 });
  });

  it('is the train’s where a group has fewer than six, and nobody’s where the train has', () => {
    const usual = usualOf([...many(8, 'Ha', { fwhm: 3 }), ...many(5, 'OIII', { fwhm: 4 })]);
    expect(usual.get('f8')).toMatchObject({ of: 'train', frames: 13, fwhm: 3, count: null });
    expect(usualOf(many(5, 'Ha')).size).toBe(0);
  });

  it('leaves frames out whose stars are too few to speak', () => {
    const usual = usualOf([...many(6, 'Ha', { fwhm: 3 }), ...many(9, 'Ha', { fwhm: 8, count: 4 })]);
    expect(usual.get('f10')).toMatchObject({ frames: 6, fwhm: 3 });
  });

  it('counts stars among exposures of one length, by the best third', () => {
    const usual = usualOf([...many(6, 'L', { count: 900 }), ...many(6, 'L', { count: 60 }, 10)]);
    expect(usual.get('f0')?.count).toBe(900);
    expect(usual.get('f6')?.count).toBe(60);
    const clouded = usualOf([...many(4, 'L', { count: 900 }), ...many(8, 'L', { count: 100 })]);
    expect(clouded.get('f11')?.count).toBe(900);
  });
});
