import { describe, expect, it } from 'vitest';
import { overdueFocus } from '../../src/findings/overdue-focus.js';
import { extended } from '../../src/model/index.js';
import { act, ask, found, lights, minutes, nightOf, sizeOf, span } from './support.js';

/** Ten frames, a refocus with its sizes by the log, ten frames. */
function nightWith(before: number, after: number, more: { filterBefore?: boolean; sizes?: boolean } = {}) {
  const frames = [0, 3200].flatMap((from, k) =>
    lights('heron', {
      from,
      seconds: 300,
      count: 10,
      header: () => (more.sizes === false ? {} : { starSize: sizeOf(k === 0 ? before : after) }),
    }),
  );
  const activities = [
    ...(more.filterBefore ? [act('filter', 3031, 3035, { train: 'heron' })] : []),
    act('focus', 3040, 3160, { train: 'heron', facts: { ok: true, sizeBefore: before, sizeAfter: after } }),
  ];
  return nightOf({ frames, activities });
}

describe('an overdue refocus', () => {
  it('is found where it made stars smaller by a tenth, with what larger ones cost', () => {
    const [finding] = found(overdueFocus, nightWith(2.45, 2.12));
    // 1 − 2.12 ÷ 2.45 = 13 %; ten frames of 5 min whose point sources were worth (2.12 ÷ 2.45)² of it.
    expect(finding?.title).toMatch(/^heron’s refocus at \d\d:\d\d was overdue: stars 13 % smaller after it$/);
    expect(minutes(finding?.costMs)).toBeCloseTo(50 * (1 - (2.12 / 2.45) ** 2), 3);
    expect(finding?.frames).toBe(10);
    // One refocus of two minutes at the start would have saved all of it.
    expect(minutes(finding?.winMs)).toBeCloseTo(50 * (1 - (2.12 / 2.45) ** 2) - 2, 3);
  });

  it('is none where the runs alone tell of it and it came at the limit, or a dither later', () => {
    // 2.32 ÷ 2.10 = 1.105, 2.38 ÷ 2.10 = 1.133: refocusing at a tenth already is not advised again.
    for (const before of [2.32, 2.38])
      expect(found(overdueFocus, nightWith(before, 2.1, { sizes: false }))).toEqual([]);
    expect(found(overdueFocus, nightWith(2.5, 2.1, { sizes: false }))).toHaveLength(1);
    expect(found(overdueFocus, nightWith(2.38, 2.1))).toHaveLength(1);
  });

  it('counts frames that their swollen stars alone make doubtful, which are the worst of it, whole', () => {
    const night = nightWith(4.1, 2.6);
    const swollen = {
      kind: 'swollen' as const,
      verdict: 'doubtful' as const,
      by: 'pixels' as const,
      span: span(0, 3000),
      overlapMs: 300_000,
      evidence: '',
      certainty: 'measured' as const,
      sources: [],
    };
    const accounts = {
      ...night.accounts,
      lights: night.accounts.lights.map((f, i) =>
        i < 10 ? extended(f, { verdict: 'doubtful' as const, causes: [swollen] }) : f,
      ),
    };
    const [finding] = found(overdueFocus, { ...night, accounts });
    expect(finding?.frames).toBe(10);
    // Ten frames of five minutes, none of them kept.
    expect(minutes(finding?.costMs)).toBeCloseTo(50, 3);
    expect(finding?.evidence.join()).toContain('in full for 10 frames that they made doubtful or lost');
    expect(minutes(finding?.winMs)).toBeCloseTo(50 - 2, 3);
  });

  it('of stars that were large from the first frame on is advice to focus at the start', () => {
    expect(found(overdueFocus, nightWith(2.45, 2.12))[0]?.advice).toMatch(/^Focus heron before its first sub\. /);
    expect(found(overdueFocus, nightWith(2.45, 2.12, { sizes: false }))[0]?.advice).toMatch(/^Refocus heron when /);
    // Frames through another filter came first: nobody knows how large these stars were then.
    const { timeline } = nightWith(2.45, 2.12);
    const frames = [...lights('heron', { from: -900, seconds: 300, count: 2, filter: 'L' }), ...timeline.frames];
    const [later] = found(overdueFocus, nightOf({ frames, activities: [...timeline.activities] }));
    expect(later?.advice).toMatch(/^Refocus heron when /);
  });

  it('is found without sizes in the frames, and says that its cost is not known', () => {
    const [finding] = found(overdueFocus, nightWith(2.45, 2.12, { sizes: false }));
    expect(finding).toMatchObject({ costMs: 0, price: 'stars 13 % larger' });
  });

  it('is not found below a tenth, where stars grew, or after a filter change', () => {
    expect(found(overdueFocus, nightWith(2.3, 2.1))).toEqual([]);
    expect(found(overdueFocus, nightWith(2.1, 2.4))).toEqual([]);
    expect(found(overdueFocus, nightWith(2.45, 2.12, { filterBefore: true }))).toEqual([]);
  });

  it('is not found by sizes of the run itself where the frames before it were as small as those after', () => {
    const { timeline } = nightWith(2.12, 2.1);
    const activities = [
      act('focus', 3040, 3160, { train: 'heron', facts: { ok: true, sizeBefore: 2.45, sizeAfter: 2.12 } }),
    ];
    expect(found(overdueFocus, nightOf({ frames: timeline.frames, activities }))).toEqual([]);
  });

  it('is not assessed without a refocus', () => {
    expect(ask(overdueFocus, nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) }))).toHaveProperty(
      'notAssessed',
    );
  });
});
