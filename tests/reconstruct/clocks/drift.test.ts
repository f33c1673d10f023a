import { describe, expect, it } from 'vitest';
import { clocksWith } from '../../support/run-clocks.js';

describe('a clock that runs fast or slow', () => {
  it.each([
    [1, 'wren', 1000],
    [2, 'wren', -700],
    [10, 'wren', 2000],
    [11, 'heron', 500],
    [3, 'heron', -900],
  ])('is known by its rate: night %i, %s gets %i ms further ahead every hour', (seed, train, perHourMs) => {
    const notes = clocksWith(seed, train, (_, hours) => hours * perHourMs).filter((c) => c.train === 'wren');
    expect(notes.filter((c) => c.jump)).toEqual([]);
    // A drift of the reference shows as one of the companion the other way.
    const expected = train === 'wren' ? perHourMs : -perHourMs;
    const drifts = notes.flatMap((c) => (c.drift ? [c.drift.perHourMs] : []));
    expect(drifts.length).toBeGreaterThan(0);
    for (const ms of drifts) expect(Math.abs(ms - expected)).toBeLessThanOrEqual(120);
    expect(notes.every((c) => c.isKnown && c.corrected)).toBe(true);
  });

  it('is distinguished from one that was set, and from one that runs true', () => {
    for (const seed of [1, 2, 3, 4, 6, 8, 9, 10]) {
      expect(clocksWith(seed, 'wren', () => 0).filter((c) => c.drift)).toEqual([]);
      expect(clocksWith(seed, 'wren', (share) => (share < 0.5 ? 5000 : 0)).filter((c) => c.drift)).toEqual([]);
    }
  });
});
