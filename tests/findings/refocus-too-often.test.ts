import { describe, expect, it } from 'vitest';
import { refocusTooOften } from '../../src/findings/refocus-too-often.js';
import type { FrameStars } from '../../src/model/index.js';
import { CLEAR_STARS } from '../support/starry-night.js';
import { T0, act, ask, found, lights, minutes, nightOf, place, sizeOf } from './support.js';
import { altered } from '../support/altered.js';

/** A refocus every `every` frames, with star sizes before and after each as the log has them. */
function nightWith(
  sizes: readonly (readonly [before: number, after: number])[],
  more: { filterBefore?: boolean } = {},
) {
  const every = 5 * 303;
  const frames = sizes.flatMap((_, i) => lights('heron', { from: i * (every + 130), seconds: 300, count: 5 }));
  const activities = sizes.flatMap(([sizeBefore, sizeAfter], i) => {
    const begin = i * (every + 130) + every;
    const change = more.filterBefore ? [act('filter', begin, begin + 5, { train: 'heron' })] : [];
    return [
      ...change,
      act('focus', begin + 5, begin + 125, { train: 'heron', facts: { ok: true, sizeBefore, sizeAfter } }),
    ];
  });
  return nightOf({ frames, activities });
}

describe('needless refocuses', () => {
  it('are found where stars had not grown and did not shrink', () => {
    const [finding] = found(
      refocusTooOften,
      nightWith([
        [2.4, 2.1],
        [2.14, 2.1],
        [2.15, 2.12],
        [2.16, 2.11],
      ]),
    );
    expect(finding?.title).toBe('heron refocused 3 times without need');
    expect(minutes(finding?.costMs)).toBeCloseTo((3 * 120) / 60, 6);
    expect(finding?.evidence[0]).toContain(
      'stars grown by 2 % since the last refocus, made smaller by 2 % by this one',
    );
  });

  it('of two trains win what each kept of its hours where no replay knows the night', () => {
    const frames = ['heron', 'wren'].flatMap((train) => lights(train, { from: 0, seconds: 300, count: 30 }));
    const activities = ['heron', 'wren'].flatMap((train) =>
      [1600, 3200, 4800].map((begin) =>
        act('focus', begin, begin + 120, { train, facts: { ok: true, sizeBefore: 2.12, sizeAfter: 2.1 } }),
      ),
    );
    const findings = found(refocusTooOften, nightOf({ frames, activities }));
    expect(findings.map(({ title }) => title)).toEqual([
      'heron refocused twice without need',
      'wren refocused twice without need',
    ]);
    for (const { winMs, evidence } of findings) {
      expect(minutes(winMs)).toBeGreaterThan(3);
      expect(evidence.at(-1)).not.toContain('kept nothing');
    }
  });

  it('are not found where stars had grown by a tenth', () => {
    expect(
      found(
        refocusTooOften,
        nightWith([
          [2.4, 2.1],
          [2.34, 2.1],
          [2.33, 2.1],
          [2.35, 2.1],
        ]),
      ),
    ).toEqual([]);
  });

  it('are not found where a program refocused at a tenth, as it measured and wrote it down', () => {
    const tenth = [
      [2.86, 2.6],
      [2.85, 2.6],
      [2.84, 2.61],
      [2.86, 2.6],
    ] as const;
    expect(found(refocusTooOften, nightWith(tenth))).toEqual([]);
  });

  it('are not found where a refocus mended what had not grown since', () => {
    // Out of focus from the start: the second run found what the first one missed.
    expect(
      found(
        refocusTooOften,
        nightWith([
          [2.6, 2.6],
          [2.6, 2.1],
          [2.34, 2.1],
        ]),
      ),
    ).toEqual([]);
  });

  it('leave those after a filter change to the filter offsets', () => {
    expect(
      found(
        refocusTooOften,
        nightWith(
          [
            [2.1, 2.1],
            [2.1, 2.1],
            [2.1, 2.1],
          ],
          { filterBefore: true },
        ),
      ),
    ).toEqual([]);
  });

  it('are found from the headers’ star sizes, less surely', () => {
    const night = nightWith([
      [2, 2],
      [2, 2],
      [2, 2],
    ]);
    const frames = night.accounts.lights.map((f) =>
      f.header?.kind === 'light' ? { ...f, header: { ...f.header, starSize: sizeOf(2.2) } } : f,
    );
    const activities = night.timeline.activities.map((a) => (a.kind === 'focus' ? { ...a, facts: { ok: true } } : a));
    const [finding] = found(
      refocusTooOften,
      altered(night, { accounts: { lights: frames }, timeline: { activities } }),
    );
    expect(finding?.confidence).toBe('medium');
  });

  it('are found by the stars in the pixels, though the air mass made them larger', () => {
    // Four refocuses, six frames after each, whose stars grow by so much between two of them.
    const byPixels = (grown: number, more: Partial<FrameStars> = {}) => {
      const cycle = 6 * 303 + 130;
      const frames = [0, 1, 2, 3].flatMap((i) => lights('heron', { from: i * cycle, seconds: 300, count: 6 }));
      const activities = [1, 2, 3].map((i) =>
        act('focus', i * cycle - 125, i * cycle - 5, { train: 'heron', facts: { ok: true } }),
      );
      const altitudeOf = (startMs: number): number => 80 - ((startMs - T0) / 1000 / cycle) * 12;
      const night = nightOf({
        frames,
        activities,
        skyOf: (f) => place(f.exposure.startMs, altitudeOf(f.exposure.startMs)),
      });
      const sizes = night.accounts.lights.map((f, i) => {
        const fwhm = 3 * (f.sky?.airmass ?? NaN) ** 0.6 * (1 + (grown * (i % 6)) / 6);
        return [f.id, { ...CLEAR_STARS, fwhm, ...more }] as const;
      });
      return { ...night, stars: { frames: Object.fromEntries(sizes), pairs: [], pointings: [], warnings: [] } };
    };
    const [finding] = found(refocusTooOften, byPixels(0.01));
    expect(finding?.title).toBe('heron refocused 3 times without need');
    expect(finding?.confidence).toBe('medium');
    expect(found(refocusTooOften, byPixels(0.1))).toEqual([]);
    // Two stars, or many that disagree, do not tell whether stars had grown.
    expect(found(refocusTooOften, byPixels(0.01, { count: 2 }))).toEqual([]);
    expect(found(refocusTooOften, byPixels(0.01, { fwhmUncertainty: null }))).toEqual([]);
    expect(found(refocusTooOften, byPixels(0.01, { fwhmUncertainty: 0.2 }))).toEqual([]);
  });

  it('are not assessed without refocuses or without sizes', () => {
    const frames = lights('heron', { from: 0, seconds: 300, count: 5 });
    expect(ask(refocusTooOften, nightOf({ frames }))).toEqual({
      notAssessed: 'refocuses in the log, star sizes at the refocuses, in the headers or measured in the pixels',
    });
    expect(ask(refocusTooOften, nightOf({ frames, activities: [act('focus', 310, 400, { train: 'heron' })] }))).toEqual(
      { notAssessed: 'star sizes at the refocuses, in the headers or measured in the pixels' },
    );
  });
});
