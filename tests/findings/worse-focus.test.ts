import { describe, expect, it } from 'vitest';
import { overdueFocus } from '../../src/findings/overdue-focus.js';
import { suddenDefocus } from '../../src/findings/sudden-defocus.js';
import { worseFocus } from '../../src/findings/worse-focus.js';
import { act, ask, found, lights, minutes, nightOf, sizeOf } from './support.js';

const SUB = 303;
/** A refocus and its pause take so many seconds. */
const PAUSE = 120;

/** Three rows of frames with a refocus between them, and the size of their stars. */
function threeRows(sizes: readonly [number, number, number], noise = 0.02, ok?: boolean) {
  const row = (i: 0 | 1 | 2, count: number) =>
    lights('heron', {
      from: 12 * i * SUB + i * PAUSE,
      seconds: 300,
      count,
      header: (k) => ({ starSize: sizeOf(sizes[i] + noise * ((k % 3) - 1)) }),
    });
  const run = (i: 1 | 2) => {
    const from = 12 * i * SUB + (i - 1) * PAUSE;
    return act('focus', from + 2, from + PAUSE - 5, { train: 'heron', ...(ok === undefined ? {} : { facts: { ok } }) });
  };
  return nightOf({ frames: [...row(0, 12), ...row(1, 12), ...row(2, 12)], activities: [run(1), run(2)] });
}

describe('a refocus that made the stars larger', () => {
  it('is named with the frames after it, and what put them right', () => {
    const [finding, ...more] = found(worseFocus, threeRows([2, 2.6, 2]));
    expect(more).toEqual([]);
    expect(finding?.title).toBe('heron’s refocus at 22:00 made its stars 30 % larger, in 12 frames');
    // By the square of the size: 1 − 1/1.3², of an hour.
    expect(minutes(finding?.costMs)).toBeCloseTo(60 * (1 - 1 / 1.69), 0);
    // Of all but the first frame, less one refocus of 113 s.
    expect(minutes(finding?.winMs)).toBeCloseTo(55 * (1 - 1 / 1.69) - 113 / 60, 0);
    const evidence = finding?.evidence.join('; ') ?? '';
    expect(evidence).toContain('from 2.00 to 2.60 px, medians of 3 frames on either side; single frames scatter by');
    expect(evidence).toContain('the refocus at 23:03 corrected it, after 12 frames');
    expect(finding?.advice).toMatch(
      /^Have each refocus of heron checked by the frame after it\. If stars are larger than before, repeat it/,
    );
  });

  it('is the one to blame: stars are neither suddenly large nor the next refocus overdue', () => {
    const night = threeRows([2, 3.4, 2]);
    expect(found(worseFocus, night)).toHaveLength(1);
    expect(found(suddenDefocus, night)).toEqual([]);
    expect(found(overdueFocus, night)).toEqual([]);
  });

  it('lasts until the end where nothing puts it right, and may be called failed', () => {
    const [finding] = found(worseFocus, threeRows([2, 2.6, 2.6], 0.02, false));
    expect(finding?.frames).toBe(24);
    expect(finding?.evidence).toContain('they stayed so until the last frame');
    expect(finding?.evidence).toContain('its log calls it failed');
  });

  it('is not found within the scatter of single frames, nor below the limit', () => {
    expect(found(worseFocus, threeRows([2, 2.3, 2], 0.35))).toEqual([]);
    expect(found(worseFocus, threeRows([2, 2.15, 2]))).toEqual([]);
    expect(found(worseFocus, threeRows([2, 1.7, 2]))).toHaveLength(1);
  });

  it('is not assessed without a refocus in the log', () => {
    expect(ask(worseFocus, nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) }))).toHaveProperty(
      'notAssessed',
    );
  });
});
