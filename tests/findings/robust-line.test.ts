import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { medianSlope, theilSen } from '../../src/findings/robust-line.js';

describe('the line of median slope', () => {
  it('goes through points that lie on a line, though two in ten are wrong', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -50, max: 50 }),
        fc.integer({ min: -500, max: 500 }),
        fc.integer({ min: -1e4, max: 1e4 }),
        (slope, intercept, error) => {
          const points = Array.from({ length: 20 }, (_, i) => ({
            x: i,
            y: slope * i + intercept + (i % 5 === 4 ? error : 0),
          }));
          expect(theilSen(points)?.slope).toBeCloseTo(slope, 9);
          expect(theilSen(points)?.intercept).toBeCloseTo(intercept, 6);
        },
      ),
    );
  });

  it('is none through points of one x', () => {
    expect(
      theilSen([
        { x: 1, y: 2 },
        { x: 1, y: 3 },
      ]),
    ).toBeNull();
    expect(theilSen([])).toBeNull();
  });

  it('is shared by groups with intercepts of their own', () => {
    const group = (zero: number) => [0, 1, 2].map((x) => ({ x, y: zero - 7 * x }));
    expect(medianSlope([group(0), group(4000), group(-900)])).toBe(-7);
  });

  it('leaves pairs out that are too near each other to tell', () => {
    expect(
      medianSlope(
        [
          [
            { x: 0, y: 0 },
            { x: 0.1, y: 50 },
            { x: 1, y: 5 },
            { x: 1.1, y: 5.5 },
            { x: 2, y: 10 },
          ],
        ],
        0.3,
      ),
    ).toBeCloseTo(5, 9);
  });
});
