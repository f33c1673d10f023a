import { describe, expect, it } from 'vitest';
import { guidingAxis } from '../../src/findings/guiding-axis.js';
import { guidingBursts } from '../../src/findings/guiding-bursts.js';
import { guidingGusts } from '../../src/findings/guiding-gusts.js';
import { refocusTooSeldom } from '../../src/findings/refocus-too-seldom.js';
import { roughGuiding } from '../../src/findings/rough-guiding.js';
import { found, guidingOf, lights, nightOf, quick } from './support.js';

const COUNT = 20;
const frames = lights('heron', { from: 0, seconds: 600, count: COUNT });
/** Calm but for half a minute in the midst of frames, in which right ascension is thrown off by so much. */
const night = (arcsec: number, of = frames, isHit: (frame: number) => boolean = () => true) =>
  nightOf({
    frames: of,
    guiding: guidingOf(0, COUNT * 603, 2, (t, i) => {
      const inFrame = t % 603;
      const isThrown = isHit(Math.floor(t / 603)) && inFrame >= 300 && inFrame < 330;
      return [isThrown ? arcsec : quick(0.3, i), quick(0.3, i)];
    }),
  });

describe('moments of rough guiding', () => {
  it('are no fault of the axis that they push on, nor of the mount all night', () => {
    const [finding] = found(guidingBursts, night(10));
    expect(finding).toMatchObject({ frames: COUNT, costMs: COUNT * 600_000 });
    // 30 s of 600 s lie in one third of each: two thirds of the exposure are calm.
    expect(finding?.evidence.at(-1)).toContain(
      'split into 3 each, 67 % of their exposure would have been within the limit',
    );
    expect(finding?.advice).toContain('take shorter subs');
    // Nobody can promise that the wind drops.
    expect(finding).not.toHaveProperty('winMs');
    for (const module of [guidingAxis, guidingGusts, roughGuiding])
      expect(found(module as typeof guidingAxis, night(10))).toEqual([]);
  });

  it('of short subs ask for no shorter ones', () => {
    const short = lights('heron', { from: 0, seconds: 120, count: 98 });
    const [finding] = found(guidingBursts, night(10, short));
    expect(finding?.frames).toBeGreaterThan(10);
    expect(finding?.advice).toContain('The subs are short enough');
  });

  it('are counted in thirds of subs that three does not divide', () => {
    expect(found(guidingBursts, night(10, lights('heron', { from: 0, seconds: 200, count: 58 })))).toHaveLength(1);
  });

  it('are found where the pixels have the word: stars are swollen by them, and no refocus makes them small', () => {
    // 10″ for 5 % of the time is an RMS of 2.2″, and stars of 3.3″ become wider by 8 ln 2 / 2 times its square.
    const wide = Math.sqrt(3.3 ** 2 + 4 * Math.LN2 * 10 ** 2 * 0.05 * 0.95) / 1.6;
    const isHit = (i: number): boolean => i % 2 === 1;
    const sized = lights('heron', {
      from: 0,
      seconds: 600,
      count: COUNT,
      header: (i) => ({ starSize: { pixels: isHit(i) ? wide : 3.3 / 1.6, measure: 'fwhm' } }),
    });
    const judged = (isNamed: (frame: number) => boolean) => {
      const bare = night(10, sized, isHit);
      const lit = bare.accounts.lights.map((f, i): (typeof bare.accounts.lights)[number] => {
        const swollen = {
          kind: 'swollen',
          span: f.exposure,
          overlapMs: 600_000,
          evidence: '',
          certainty: 'measured',
          sources: [],
        } as const;
        return isNamed(i)
          ? { ...f, verdict: 'doubtful', causes: [{ ...swollen, verdict: 'doubtful', by: 'pixels' }] }
          : { ...f, verdict: 'kept', causes: [] };
      });
      return { ...bare, accounts: { ...bare.accounts, lights: lit } };
    };
    expect(found(guidingBursts, judged(isHit))[0]?.frames).toBe(COUNT / 2);
    expect(found(refocusTooSeldom, judged(isHit))).toEqual([]);
    // Stars that grew while the guiding was calm are another matter.
    expect(
      found(
        guidingBursts,
        judged((i) => !isHit(i)),
      ),
    ).toEqual([]);
  });

  it('are not found where they harm no frame, in two frames, or where all of the exposure is rough', () => {
    expect(found(guidingBursts, night(1))).toEqual([]);
    expect(
      found(
        guidingBursts,
        night(10, frames, (frame) => frame < 2),
      ),
    ).toEqual([]);
    const rough = nightOf({ frames, guiding: guidingOf(0, COUNT * 603, 2, (_, i) => [quick(2.4, i), quick(0.5, i)]) });
    expect(found(guidingBursts, rough)).toEqual([]);
    expect(found(guidingAxis, rough)).toHaveLength(1);
    // A periodic error is large for most of its period.
    const period = nightOf({
      frames,
      guiding: guidingOf(0, COUNT * 603, 2, (t, i) => [3 * Math.sin(t / 60), quick(0.3, i)]),
    });
    expect(found(guidingBursts, period)).toEqual([]);
    expect(found(guidingAxis, period)).toHaveLength(1);
  });
});
