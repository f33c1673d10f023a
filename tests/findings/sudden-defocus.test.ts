import { describe, expect, it } from 'vitest';
import { suddenDefocus } from '../../src/findings/sudden-defocus.js';
import { act, ask, found, lights, minutes, nightOf, sizeOf } from './support.js';

const SUB = 303;

/** Thirty subs of 300 s, 3 s apart. */
const sized = (size: (i: number) => number) =>
  lights('heron', { from: 0, seconds: 300, count: 30, header: (i) => ({ starSize: sizeOf(size(i)) }) });

const spell = (from: number, to: number) => (i: number) => (i >= from && i < to ? 5.2 : 2 + 0.02 * (i % 3));

describe('stars that are large from one frame to the next', () => {
  it('are found with when it began, and what to look for', () => {
    const [finding, ...more] = found(suddenDefocus, nightOf({ frames: sized(spell(12, 19)) }));
    expect(more).toEqual([]);
    expect(finding?.title).toBe('heron’s stars were 2.6 times as large from 22:00 on, in 7 frames');
    expect(minutes(finding?.costMs)).toBeCloseTo(35, 6);
    expect(finding).not.toHaveProperty('winMs');
    expect(finding?.evidence.join('; ')).toContain('no refocus is known just before');
    expect(finding?.advice).toContain('Find out what moved on heron about 22:00');
  });

  it('are laid to a refocus just before, through another filter than the frames before it, and healed by one', () => {
    // Through one filter they are another finding's (worse-focus.test.ts). The subs are drawn apart for the refocuses.
    const frames = [
      ...sized(() => 2).slice(0, 9),
      ...lights('heron', {
        from: 9 * SUB,
        seconds: 300,
        count: 3,
        filter: 'L',
        header: () => ({ starSize: sizeOf(2) }),
      }),
      ...lights('heron', { from: 12 * SUB + 120, seconds: 300, count: 7, header: () => ({ starSize: sizeOf(5.2) }) }),
      ...lights('heron', { from: 19 * SUB + 240, seconds: 300, count: 7, header: () => ({ starSize: sizeOf(2) }) }),
    ];
    const [finding] = found(
      suddenDefocus,
      nightOf({
        frames,
        activities: [
          act('focus', 12 * SUB + 5, 12 * SUB + 110, { train: 'heron' }),
          act('focus', 19 * SUB + 125, 19 * SUB + 230, { train: 'heron' }),
        ],
      }),
    );
    expect(finding?.evidence.join('; ')).toMatch(/a refocus ended at 22:02, just before; the refocus .* corrected it/);
    expect(finding?.advice).toMatch(/^Look at heron’s refocus of 22:02/);
  });

  it('are not found where stars grow slowly, for two frames, or after a long pause', () => {
    expect(found(suddenDefocus, nightOf({ frames: sized((i) => 2 * 1.06 ** i) }))).toEqual([]);
    expect(found(suddenDefocus, nightOf({ frames: sized(spell(12, 14)) }))).toEqual([]);
    const later = [
      ...sized(() => 2).slice(0, 10),
      ...lights('heron', { from: 10 * SUB + 3600, seconds: 300, count: 9, header: () => ({ starSize: sizeOf(5) }) }),
    ];
    expect(found(suddenDefocus, nightOf({ frames: later }))).toEqual([]);
  });

  it('are not assessed without star sizes', () => {
    const night = nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) });
    expect(ask(suddenDefocus, night)).toHaveProperty('notAssessed');
  });
});
