import { describe, expect, it } from 'vitest';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import { groupsOf, partsOfCycles, sequencesOf } from '../../../src/gather/dialects/draft/classify/sequences.js';
import { statedDurations } from '../../../src/gather/dialects/draft/classify/durations.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

describe('sequences of lines', () => {
  const kinds = kindsOf(
    rounds(12, 320, (from) => [
      [from, 'alfa 300 s'],
      [from + 300, 'bravo'],
      [from + 302, 'charlie'],
      [from + 305, 'delta'],
    ]),
  );

  it('are found where each line is followed by the next, again and again', () => {
    const found = sequencesOf(groupsOf(kinds, []), kinds, timelineOf(kinds)).map((sequence) =>
      sequence.flatMap((group) => group.map((i) => kinds[i]?.summary[0] ?? '')).join(''),
    );
    expect(found).toContain('bcd');
    expect(found).not.toContain('bd');
  });

  it('put twins into one group', () => {
    expect(groupsOf(kinds, [[kindLike(kinds, 'bravo'), kindLike(kinds, 'delta')]])).toHaveLength(3);
  });

  it('may be any part of what a night does in that order (common practice, no source)', () => {
    expect(partsOfCycles(3)).toContainEqual(['dither-ready', 'dither-begin', 'settling-end']);
    expect(partsOfCycles(2)).not.toContainEqual(['settling-end', 'settling-begin']);
  });
});

describe('stated seconds', () => {
  it('have passed where they run into what follows, and something began just as long before', () => {
    const kinds = kindsOf(
      rounds(10, 330, (from, i) => [
        [from, 'going'],
        [from + 90 + i, `gone, took ${90 + i} s`],
        [from + 94 + i, 'opened 200 s'],
      ]),
    );
    expect(statedDurations(kinds, timelineOf(kinds)).get(kindLike(kinds, 'gone'))).toBe('past');
  });

  it('are a limit where they never change and nothing began then', () => {
    const kinds = kindsOf(
      rounds(10, 330, (from, i) => [
        [from + (i % 3), 'opened 200 s'],
        [from + 260 + i, 'wait till quiet, 60 s at most'],
      ]),
    );
    expect(statedDurations(kinds, timelineOf(kinds)).get(kindLike(kinds, 'wait'))).not.toBe('past');
  });
});
