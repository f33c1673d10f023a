import { describe, expect, it } from 'vitest';
import { focusHarm } from '../../src/account/focus-harm.js';
import { act, lights } from '../findings/support.js';
import { CLEAR_STARS } from '../support/starry-night.js';

const SUB = 303;

describe('the refocus that frames are laid to', () => {
  const frames = [
    ...lights('heron', { from: 0, seconds: 300, count: 6 }),
    ...lights('heron', { from: 6 * SUB + 120, seconds: 300, count: 6 }),
    ...lights('heron', { from: 12 * SUB + 240, seconds: 300, count: 6 }),
  ];
  const runs = [
    act('focus', 6 * SUB + 5, 6 * SUB + 110, { train: 'heron' }),
    act('focus', 12 * SUB + 125, 12 * SUB + 230, { train: 'heron' }),
  ];
  /** Of each frame the time at which the refocus began that it is laid to. */
  const harmed = (fwhm: (i: number) => number | null) => {
    const stars = { frames: Object.fromEntries(frames.map(({ id }, i) => [id, { ...CLEAR_STARS, fwhm: fwhm(i) }])) };
    const harmOf = focusHarm({ lights: frames, activities: runs, stars, positions: {} });
    return frames.map((frame) => runs.findIndex(({ span }) => span.startMs === harmOf(frame)?.run.span.startMs));
  };
  const rows = (...of: readonly number[]) => of.flatMap((one) => Array<number>(6).fill(one));

  it('is the last one before them, if stars were larger after it', () => {
    expect(harmed((i) => (i >= 6 && i < 12 ? 3.4 : 2.5))).toEqual(rows(-1, 0, -1));
    expect(harmed((i) => (i < 6 ? 2.5 : 3.4))).toEqual(rows(-1, 0, -1));
  });

  it('is none where it did good, or nothing is known', () => {
    expect(harmed((i) => (i < 6 ? 3.4 : 2.5))).toEqual(rows(-1, -1, -1));
    expect(harmed(() => null)).toEqual(rows(-1, -1, -1));
  });
});
