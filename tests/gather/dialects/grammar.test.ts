import { describe, expect, it } from 'vitest';
import { Grammar, STATES, stateIndex } from '../../../src/gather/dialects/draft/classify/grammar.js';
import type { EventName } from '../../../src/model/index.js';

/** A grammar of a log that tells these events (common practice, no source, for what follows what). */
function telling(...events: EventName[]): (from: EventName, to: EventName, seconds: number) => number {
  const grammar = new Grammar(STATES.map((state) => events.includes(state)));
  return (from, to, seconds) => grammar.score(stateIndex(from) ?? -1, stateIndex(to) ?? -1, seconds);
}

describe('the grammar of a night', () => {
  const night = telling('exposure-begin', 'exposure-end', 'dither-begin', 'settling-end', 'focus-begin', 'focus-end');

  it('finds usual what follows at its usual time', () => {
    expect(night('exposure-begin', 'exposure-end', 300)).toBe(1);
    expect(night('settling-end', 'exposure-begin', 1)).toBe(1);
  });

  it('passes over what the log does not tell, at a small price', () => {
    const over = night('dither-begin', 'settling-end', 14);
    expect(over).toBeLessThan(1);
    expect(over).toBeGreaterThan(0.5);
  });

  it('does not pass over what the log does tell', () => {
    expect(night('focus-begin', 'exposure-begin', 120)).toBeLessThan(0);
    expect(night('exposure-begin', 'exposure-begin', 300)).toBeLessThan(0.3);
  });

  it('finds times far from the usual ones unusual', () => {
    expect(night('focus-begin', 'focus-end', 100)).toBe(1);
    expect(night('focus-begin', 'focus-end', 1)).toBeLessThan(0.6);
    expect(night('dither-begin', 'settling-end', 7200)).toBeLessThan(0.1);
  });

  it('lets a log of the guiding alone pass over every exposure', () => {
    const guiding = telling('guiding-begin', 'dither-begin', 'settling-end');
    expect(guiding('settling-end', 'dither-begin', 600)).toBeGreaterThan(0);
  });
});
