import { describe, expect, it } from 'vitest';
import { asPassed, setBackAt } from '../../../src/gather/dialects/draft/classify/clock-set-back.js';
import { kindsOf, type Line } from './support/kinds.js';

/** Rounds of ten minutes; from the given one on the clock shows so many seconds less. */
const night = (fromRound: number, backSeconds: number) =>
  kindsOf(
    Array.from({ length: 20 }, (_, i): Line[] => {
      const shown = 600 * i - (i >= fromRound ? backSeconds : 0);
      return [
        [shown, 'opens'],
        [shown + 500, 'shuts'],
      ];
    }).flat(),
  );

describe('a log over the end of summer time', () => {
  it('is put in the order in which its hours pass', () => {
    const kinds = night(12, 3600);
    const at = setBackAt(kinds);
    expect(at).not.toBeNull();
    const passed = kinds.map((kind) => asPassed(kind, at ?? 0));
    for (const { atMs } of passed) expect([...atMs].sort((a, b) => a - b)).toEqual(atMs);
  });

  it('is distinguished from one whose clock was set by less, and from one in order', () => {
    expect(setBackAt(night(12, 60))).toBeNull();
    expect(setBackAt(night(99, 0))).toBeNull();
  });
});
