import { describe, expect, it } from 'vitest';
import type { LineTimes } from '../../../src/model/index.js';
import { jumpInLines, oddLengths } from '../../../src/reconstruct/clocks/jump.js';
import type { LogExposure } from '../../../src/reconstruct/log-exposures.js';
import { clocksWith } from '../../support/run-clocks.js';

const linesAt = (...atMs: readonly number[]): LineTimes[] => [{ file: 'wren.jsonl', train: 'wren', atMs }];

describe('lines of a log that go back in time', () => {
  it('tell of a clock set back, by at least so much', () => {
    expect(jumpInLines(linesAt(0, 60_000, 90_000, 30_000, 50_000))).toEqual({
      atMs: 90_000,
      byMs: -60_000,
      isOwn: true,
    });
  });

  it('are a program’s disorder where they come back at once, or by little', () => {
    expect(jumpInLines(linesAt(0, 60_000, 30_000, 61_000))).toBeNull();
    expect(jumpInLines(linesAt(0, 60_000, 56_000, 57_000))).toBeNull();
  });
});

describe('an exposure of odd length by its log', () => {
  const exposure = (beginMs: number, lengthMs: number): LogExposure => ({
    beginMs,
    endMs: beginMs + lengthMs,
    endKnown: true,
    askedMs: 300_000,
    aborted: false,
    sources: [],
  });
  const night = [300_100, 300_050, 300_150, 262_700, 300_100, 300_080].map((ms, i) => exposure(i * 310_000, ms));

  it('proves a jump where its file says that it was exposed in full', () => {
    expect(oddLengths(night, () => 300_000)).toEqual([
      { atMs: 3 * 310_000 + 262_700, byMs: -37_390, isProven: true, isFull: true },
    ]);
  });

  it('proves none where it may have been cut short, or a program have been slow', () => {
    expect(oddLengths(night, () => undefined)).toMatchObject([{ isProven: false }]);
    const long = [...night.slice(0, 3), exposure(930_000, 340_000), ...night.slice(4)];
    expect(oddLengths(long, () => 300_000)).toMatchObject([{ isProven: false }]);
  });
});

describe('a clock that is set while the night runs', () => {
  it.each([
    [1, 'wren', 5000, 0.3],
    [2, 'wren', -12_000, 0.7],
    [10, 'wren', 120_000, 0.5],
    [11, 'wren', 3_600_000, 0.3],
    [10, 'heron', 120_000, 0.5],
  ])('is not known: night %i, %s %i ms ahead', (seed, train, aheadMs, share) => {
    const jumps = clocksWith(seed, train, (at) => (at < share ? aheadMs : 0)).filter((c) => c.jump !== undefined);
    expect(jumps.length).toBeGreaterThan(0);
    expect(jumps.every((c) => !c.isKnown && !c.corrected)).toBe(true);
    // A jump of the reference shows as one of the companion the other way.
    const sizes = jumps.flatMap((c) => (c.jump ? [Math.abs(c.jump.byMs)] : []));
    expect(sizes.some((ms) => Math.abs(ms - Math.abs(aheadMs)) <= 1500)).toBe(true);
  });

  it('is not seen where none was set', () => {
    for (const seed of [1, 2, 3, 4, 6, 8, 9, 10])
      expect(clocksWith(seed, 'wren', () => 0).filter((c) => c.jump !== undefined)).toEqual([]);
  });
});
