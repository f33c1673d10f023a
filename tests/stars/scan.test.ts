import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nextAbove, wordsOf } from '../../src/stars/measure/scan.js';

const whole = fc.integer({ min: -32768, max: 32767 });

describe('the next sample above a limit', () => {
  it('is found among whole numbers wherever they lie, as by looking at each', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.constant(-32700), whole), { maxLength: 60 }),
        fc.oneof(whole, fc.constantFrom(-32701, -32700, -1, 0), fc.double({ min: -33000, max: 33000, noNaN: true })),
        fc.nat(60),
        fc.nat(3),
        (numbers, limit, from, offset) => {
          const samples = new Int16Array(numbers.length + offset).subarray(offset);
          samples.set(numbers);
          const start = Math.min(from, numbers.length);
          const expected = numbers.findIndex((value, at) => at >= start && value > limit);
          const found = nextAbove(samples, wordsOf(samples), start, numbers.length, limit);
          expect(found).toBe(expected === -1 ? numbers.length : expected);
        },
      ),
    );
  });

  it('skips what is no number among floats', () => {
    const samples = Float32Array.of(1, NaN, 2, 5);
    expect(nextAbove(samples, wordsOf(samples), 0, 4, 3)).toBe(3);
    expect(nextAbove(samples, wordsOf(samples), 0, 4, NaN)).toBe(4);
  });
});
