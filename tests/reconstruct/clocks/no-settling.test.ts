import { describe, expect, it } from 'vitest';
import { clocksWith } from '../../support/run-clocks.js';

describe('a log of the mount that says nothing of settling', () => {
  it.each([1, 4, 8, 9, 10, 15])('tells a companion’s clock all the same: night %i', (seed) => {
    for (const aheadMs of [0, 47_000]) {
      const notes = clocksWith(
        seed,
        'wren',
        () => aheadMs,
        ({ train, event }) => train === 'heron' && !event.startsWith('settling'),
      ).filter((c) => c.train === 'wren');
      expect(notes).toHaveLength(1);
      // Whole cycles away fitted better where the settling passed for a wait of the companion.
      for (const note of notes) {
        expect(note.isKnown).toBe(true);
        expect(Math.abs(note.aheadMs - aheadMs)).toBeLessThan(note.uncertaintyMs);
      }
    }
  });
});
