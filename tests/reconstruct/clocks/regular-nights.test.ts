import { describe, expect, it } from 'vitest';
import { lineTimesOf, type TellingEvent } from '../../../src/model/index.js';
import { compareClocks } from '../../../src/reconstruct/index.js';

const T0 = Date.UTC(2026, 9, 14, 19);

/** Two trains of equal subs on a mount that dithers every 924 s to the millisecond; both begin so long after it. */
function night(delayMs: number): TellingEvent[] {
  const events: TellingEvent[] = [];
  const say = (train: string, atMs: number, event: TellingEvent['event']): void => {
    events.push({
      event,
      atMs: T0 + atMs,
      train,
      source: { file: `${train}.jsonl`, line: events.length + 1 },
    } as never);
  };
  const cycleMs = 3 * 303_300 + 13_400 + delayMs;
  for (let block = 0; block < 12; block++) {
    for (const train of ['heron', 'wren']) {
      for (let i = 0; i < 3; i++) {
        say(train, block * cycleMs + i * 303_300, 'exposure-begin');
        say(train, block * cycleMs + i * 303_300 + 300_000, 'exposure-end');
      }
      say(train, block * cycleMs + 3 * 303_300, 'dither-ready');
    }
    const moveMs = block * cycleMs + 3 * 303_300 + 400;
    say('heron', moveMs, 'dither-begin');
    say('heron', moveMs + 3000, 'dither-end');
    say('heron', moveMs + 3000, 'settling-begin');
    say('heron', moveMs + 13_000, 'settling-end');
  }
  return events;
}

describe('a night as regular as clockwork', () => {
  // A whole cycle fits as well: of equal offsets the one of agreeing clocks is right, wherever its peak is in the search.
  it.each([0, 300, 700, 900, 1000, 1100, 1500])('has clocks that agree: subs begin %i ms after settling', (delayMs) => {
    const events = night(delayMs);
    const { notes } = compareClocks({
      trains: ['heron', 'wren'],
      headers: [],
      events,
      lineTimes: lineTimesOf(events),
      byHandMs: new Map(),
    });
    expect(notes.filter(({ train }) => train === 'wren')).toMatchObject([{ aheadMs: 0, isKnown: true }]);
  });
});
