import { describe, expect, it } from 'vitest';
import { contradicting } from '../../../src/gather/dialects/draft/classify/consistency.js';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import { disputed, withdrawn, type Taken } from '../../../src/gather/dialects/draft/classify/withdrawal.js';
import type { EventName } from '../../../src/model/index.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

const kinds = kindsOf(
  rounds(15, 320, (from) => [
    [from, 'open 300 s'],
    [from + 150, 'open still 150 s'],
    [from + 300, 'shut'],
    [from + 302, 'hop'],
    [from + 305, 'hopped'],
  ]),
);
const timeline = timelineOf(kinds);
const open = kindLike(kinds, 'open 300');
const still = kindLike(kinds, 'open still');
const shut = kindLike(kinds, 'shut');
const hop = kindLike(kinds, 'hop');
const hopped = kindLike(kinds, 'hopped');
const taken = (event: EventName, next: EventName | null = null): Taken => ({ event, next });

describe('what makes a night contradict itself', () => {
  it('is taken back: a second beginning while the first goes on', () => {
    const events = new Map([
      [open, taken('exposure-begin')],
      [still, taken('exposure-begin')],
      [shut, taken('exposure-end')],
    ]);
    const changed = withdrawn(events, timeline);
    expect([...changed.values()]).toEqual([null]);
    expect([...contradicting(new Map([...events].map(([kind, { event }]) => [kind, event])), timeline)]).toEqual([
      still,
    ]);
  });

  it('is taken for the next best event where that spares the contradictions', () => {
    const two = kindsOf(
      rounds(15, 320, (from, i) => [
        [from, 'hop'],
        [from + 3, i % 3 === 0 ? 'over and done' : 'hopped'],
      ]),
    );
    const late = kindLike(two, 'over');
    const changed = withdrawn(
      new Map([
        [kindLike(two, 'hop'), taken('dither-begin')],
        [kindLike(two, 'hopped'), taken('dither-end')],
        [late, taken('dither-begin', 'dither-end')],
      ]),
      timelineOf(two),
    );
    expect([...changed]).toEqual([[late, 'dither-end']]);
  });

  it('leaves a night alone that makes sense, and disputes nothing in it', () => {
    const events = new Map([
      [open, taken('exposure-begin')],
      [shut, taken('exposure-end')],
      [hop, taken('dither-begin')],
      [hopped, taken('dither-end')],
    ]);
    expect(withdrawn(events, timeline).size).toBe(0);
    expect(disputed(events, timeline, () => -1).size).toBe(0);
  });

  it('is no contradiction where two trains overlap', () => {
    const two = kindsOf(
      rounds(12, 320, (from) => [
        [from, 'a up'],
        [from + 10, 'b up'],
        [from + 300, 'a down'],
        [from + 310, 'b down'],
      ]),
    );
    const events = new Map(
      two.map((kind) => [kind, taken(kind.summary.endsWith('up') ? 'exposure-begin' : 'exposure-end')] as const),
    );
    const times = timelineOf(two);
    expect(withdrawn(events, times, (kind) => (kind.summary.startsWith('a') ? 0 : 1)).size).toBe(0);
    expect(disputed(events, times, () => -1).size).toBeGreaterThan(0);
  });
});
