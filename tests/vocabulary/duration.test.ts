import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { duration, durationRange, exactDuration, roundToSum } from '../../src/vocabulary/index.js';

const S = 1000;
const M = 60 * S;
const H = 60 * M;

describe('duration', () => {
  it.each([
    [0, '0 s'],
    [400, '0.4 s'],
    [9.4 * S, '9.4 s'],
    [9.96 * S, '10 s'],
    [59.4 * S, '59 s'],
    [2 * S, '2 s'],
    [59.6 * S, '1 min'],
    [4 * M + 12 * S, '4 min 12 s'],
    [4 * M + 5 * S, '4 min 05 s'],
    [5 * M, '5 min'],
    [9 * M + 59.6 * S, '10 min'],
    [38 * M, '38 min'],
    [59.6 * M, '1.0 h'],
    [6 * H + 40 * M, '6.7 h'],
    [26 * H + 5 * M, '26.1 h'],
  ])('%i ms reads %s', (ms, text) => {
    expect(duration(ms)).toBe(text);
  });

  it('never shows sixty of anything', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 * H }), (ms) => {
        expect(duration(ms)).not.toMatch(/\b60\b/);
        expect(exactDuration(ms)).not.toMatch(/\b60\b/);
      }),
    );
  });
});

describe('durationRange', () => {
  it.each([
    [1 * H, 1.7 * H, '1.0–1.7 h'],
    [0.57 * H, 1.2 * H, '0.57–1.2 h'],
    [35.4 * M, 42 * M, '35–42 min'],
    [4.4 * M, 6 * M, '4.4–6.0 min'],
    [9.96 * H, 17.4 * H, '10–17 h'],
    [103 * H, 127 * H, '100–130 h'],
    [1.71 * H, 1.74 * H, '1.7 h'],
    [0, 0, '0.0 min'],
  ])('%i to %i ms reads %s', (low, high, text) => {
    expect(durationRange(low, high)).toBe(text);
  });
});

describe('exactDuration', () => {
  it.each([
    [0, '0 s'],
    [5 * S, '5 s'],
    [61 * S, '1 min 01 s'],
    [6 * H + 4 * M + 9 * S, '6 h 04 min 09 s'],
  ])('%i ms reads %s', (ms, text) => {
    expect(exactDuration(ms)).toBe(text);
  });
});

describe('roundToSum', () => {
  it('makes a column add up as it is printed', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 10 * H }), { minLength: 1, maxLength: 15 }), (parts) => {
        const shown = roundToSum(parts, S);
        const whole = parts.reduce((sum, part) => sum + part, 0);
        expect(shown.reduce((sum, part) => sum + part, 0)).toBe(Math.round(whole / S) * S);
        for (const [index, part] of parts.entries()) expect(Math.abs((shown[index] ?? 0) - part)).toBeLessThan(S);
      }),
    );
  });
});
