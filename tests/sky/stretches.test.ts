import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { interval } from '../../src/model/index.js';
import { lowest, stretchesFromZero } from '../../src/sky/stretches.js';

const MINUTE = 60_000;

describe('stretches at or above zero', () => {
  test('have edges that are the first millisecond of the new state', () => {
    const line = (atMs: number): number => atMs - 12_345;
    expect(stretchesFromZero(line, interval(0, 100_000), 10_000)).toEqual([{ startMs: 12_345, endMs: 100_000 }]);
    expect(stretchesFromZero((t) => -line(t), interval(0, 100_000), 10_000)).toEqual([{ startMs: 0, endMs: 12_346 }]);
  });

  test('are the whole span or nothing when zero is never passed', () => {
    expect(stretchesFromZero(() => 1, interval(5, 95), 10)).toEqual([{ startMs: 5, endMs: 95 }]);
    expect(stretchesFromZero(() => -1, interval(5, 95), 10)).toEqual([]);
    expect(stretchesFromZero(() => 1, interval(5, 5), 10)).toEqual([]);
  });

  test('are found when they lie between two samples', () => {
    // A parabola above zero for 20 s, sampled every 10 minutes.
    const peak = 17.3 * MINUTE;
    const hill = (atMs: number): number => 10_000 ** 2 - (atMs - peak) ** 2;
    expect(stretchesFromZero(hill, interval(0, 60 * MINUTE), 10 * MINUTE)).toEqual([
      { startMs: peak - 10_000, endMs: peak + 10_001 },
    ]);
    expect(stretchesFromZero((t) => -hill(t), interval(0, 60 * MINUTE), 10 * MINUTE)).toEqual([
      { startMs: 0, endMs: peak - 9_999 },
      { startMs: peak + 10_000, endMs: 60 * MINUTE },
    ]);
  });

  test('agree with the sign at every instant, are sorted and disjoint', () => {
    const period = fc.integer({ min: 40, max: 400 });
    fc.assert(
      fc.property(
        period,
        fc.double({ min: -1.2, max: 1.2, noNaN: true }),
        fc.integer({ min: 0, max: 1000 }),
        (minutes, level, shift) => {
          const wave = (atMs: number): number =>
            Math.sin((2 * Math.PI * (atMs + shift * 1000)) / (minutes * MINUTE)) - level;
          const span = interval(0, 1440 * MINUTE);
          const found = stretchesFromZero(wave, span, 5 * MINUTE);
          for (const [i, stretch] of found.entries()) {
            expect(stretch.endMs).toBeGreaterThan(stretch.startMs);
            if (i > 0) expect(stretch.startMs).toBeGreaterThan(found[i - 1]?.endMs ?? NaN);
          }
          const wrong: number[] = [];
          for (let atMs = 0; atMs < span.endMs; atMs += 7 * MINUTE + 13) {
            const inside = found.some((stretch) => atMs >= stretch.startMs && atMs < stretch.endMs);
            if (inside !== wave(atMs) >= 0) wrong.push(atMs);
          }
          expect(wrong).toEqual([]);
        },
      ),
    );
  });
});

describe('the lowest value', () => {
  test('is found between the samples, to a second', () => {
    const bowl = (atMs: number): number => (atMs - 1_234_567) ** 2;
    expect(Math.abs(lowest(bowl, interval(0, 10_000_000), 600_000).atMs - 1_234_567)).toBeLessThan(1000);
  });

  test('may be an end of the span', () => {
    expect(lowest((t) => t, interval(100, 5000), 1000)).toEqual({ atMs: 100, value: 100 });
    expect(lowest((t) => -t, interval(100, 5000), 1000)).toEqual({ atMs: 5000, value: -5000 });
  });
});
