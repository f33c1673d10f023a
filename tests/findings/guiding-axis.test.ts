import { CAUTION } from '../../src/model/index.js';
import { describe, expect, it } from 'vitest';
import { guidingAxis } from '../../src/findings/guiding-axis.js';
import { ask, found, guidingOf, lights, nightOf, quick } from './support.js';

const frames = lights('heron', { from: 0, seconds: 300, count: 24 });
/** An error that stays on one side for long, as a gear with play does when it has to turn round. */
const slow = (size: number, seconds: number): number => (Math.floor(seconds / 40) % 2 === 0 ? size : -size);
const night = (error: (seconds: number, index: number) => readonly [number, number]) =>
  nightOf({ frames, guiding: guidingOf(0, 24 * 303, 3, error) });

describe('guiding rough on one axis', () => {
  it('is backlash where declination is worse and slow to change sides', () => {
    const [finding] = found(
      guidingAxis,
      night((t, i) => [quick(0.6, i), slow(1.6, t)]),
    );
    expect(finding).toMatchObject({
      title: 'Guiding was rough in declination, and slow to reverse',
      frames: 24,
      caution: CAUTION,
    });
    // The error changes sides every 40 s, seen to the next sample of three seconds.
    expect(finding?.evidence[1]).toMatch(
      /every (39|40|42) s in declination, every 3 s in right ascension: a sign of backlash/,
    );
    expect(finding?.costMs).toBe(24 * 300_000);
  });

  it('is not backlash where declination is worse but quick', () => {
    expect(
      found(
        guidingAxis,
        night((_, i) => [quick(0.6, i), quick(1.6, i)]),
      )[0]?.title,
    ).toBe('Guiding was rough in declination alone');
  });

  it('names right ascension where it is the worse one', () => {
    expect(
      found(
        guidingAxis,
        night((_, i) => [quick(1.6, i), quick(0.6, i)]),
      )[0],
    ).toMatchObject({ title: 'Guiding was rough in right ascension alone' });
  });

  it('is found in a spell of few frames, on a night with both axes steady but for that', () => {
    const isSpell = (seconds: number): boolean => seconds >= 8 * 303 && seconds < 15 * 303;
    const [finding] = found(
      guidingAxis,
      night((t, i) => [quick(isSpell(t) ? 2.4 : 0.4, i), quick(0.4, i)]),
    );
    expect(finding).toMatchObject({ title: 'Guiding was rough in right ascension alone, in 7 frames', frames: 7 });
    expect(finding?.winMs).toBe(7 * 300_000);
  });

  it('costs nothing where no frame was harmed, and is reported all the same', () => {
    const [finding] = found(
      guidingAxis,
      night((t, i) => [quick(0.4, i), slow(0.8, t)]),
    );
    expect(finding).toMatchObject({ costMs: 0, frames: 0 });
    expect(finding?.winMs).toBeUndefined();
  });

  it('is not found where the axes are alike, nor where both are far below a pixel', () => {
    expect(
      found(
        guidingAxis,
        night((_, i) => [quick(1.3, i), quick(1.5, i)]),
      ),
    ).toEqual([]);
    expect(
      found(
        guidingAxis,
        night((t, i) => [quick(0.1, i), slow(0.3, t)]),
      ),
    ).toEqual([]);
  });

  it('is not assessed without samples or without a pixel scale', () => {
    expect(ask(guidingAxis, nightOf({ frames }))).toEqual({ notAssessed: 'a guiding log with samples' });
    const bare = nightOf({
      frames,
      guiding: guidingOf(0, 600, 3, () => [0.5, 0.5]),
      trains: [{ id: 'heron', role: 'pilot' }],
    });
    expect(ask(guidingAxis, bare)).toEqual({ notAssessed: 'focal length and pixel size' });
  });
});
