import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clip,
  contains,
  coveredMs,
  durationMs,
  hull,
  intersect,
  interval,
  midpointMs,
  overlapMs,
  subtract,
  union,
  type Interval,
} from '../../src/model/index.js';

const spans = fc
  .tuple(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 0, max: 60 }))
  .map(([start, length]) => interval(start, start + length));
const lists = fc.array(spans, { maxLength: 12 });

/** The set of milliseconds, the plainest model of what a list of intervals means. */
function milliseconds(list: readonly Interval[]): Set<number> {
  const set = new Set<number>();
  for (const { startMs, endMs } of list) for (let ms = startMs; ms < endMs; ms++) set.add(ms);
  return set;
}

describe('an interval', () => {
  it('refuses to end before it starts', () => {
    expect(() => interval(5, 4)).toThrow(RangeError);
  });
  it.each([NaN, Infinity, 0.5])('refuses %s as an end', (bad) => {
    expect(() => interval(0, bad)).toThrow(RangeError);
    expect(() => interval(bad, 10)).toThrow(RangeError);
  });
  it('may be empty', () => {
    expect(durationMs(interval(7, 7))).toBe(0);
  });
  it('holds its start and not its end', () => {
    expect(contains(interval(1, 3), 1)).toBe(true);
    expect(contains(interval(1, 3), 3)).toBe(false);
  });
  it('does not overlap a neighbour that starts at its end', () => {
    expect(overlapMs(interval(0, 5), interval(5, 9))).toBe(0);
    expect(intersect(interval(0, 5), interval(5, 9))).toBeNull();
  });
  it('has a whole midpoint', () => {
    expect(midpointMs(interval(0, 5))).toBe(2);
  });
});

describe('the algebra of intervals', () => {
  it('joins neighbours that touch', () => {
    expect(union([interval(5, 9), interval(0, 5)])).toEqual([{ startMs: 0, endMs: 9 }]);
  });
  it('agrees with sets of milliseconds', () => {
    fc.assert(
      fc.property(lists, lists, (a, b) => {
        const inA = milliseconds(a);
        const inB = milliseconds(b);
        expect(milliseconds(union(a))).toEqual(inA);
        expect(milliseconds(subtract(a, b))).toEqual(new Set([...inA].filter((ms) => !inB.has(ms))));
        expect(coveredMs(a)).toBe(inA.size);
      }),
    );
  });
  it('keeps unions sorted, disjoint and apart', () => {
    fc.assert(
      fc.property(lists, (a) => {
        const joined = union(a);
        for (let i = 1; i < joined.length; i++) expect(joined[i]!.startMs).toBeGreaterThan(joined[i - 1]!.endMs);
      }),
    );
  });
  it('intersects as its overlap says', () => {
    fc.assert(
      fc.property(spans, spans, (a, b) => {
        const common = intersect(a, b);
        expect(common ? durationMs(common) : 0).toBe(overlapMs(a, b));
        expect(overlapMs(a, b)).toBe(overlapMs(b, a));
      }),
    );
  });
  it('clips to a window', () => {
    expect(clip([interval(0, 10), interval(20, 30)], interval(5, 25))).toEqual([
      { startMs: 5, endMs: 10 },
      { startMs: 20, endMs: 25 },
    ]);
  });
  it('spans a list by its hull', () => {
    expect(hull([interval(4, 6), interval(1, 2)])).toEqual({ startMs: 1, endMs: 6 });
    expect(hull([])).toBeNull();
  });
});
