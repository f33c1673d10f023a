/** A companion's log that asks the mount every few seconds: its dithers stand in it up to so much too late. */
import { describe, expect, it } from 'vitest';
import { lineTimesOf, type TellingEvent } from '../../../src/model/index.js';
import { compareClocks } from '../../../src/reconstruct/index.js';
import { seeded } from '../../support/generator/random.js';

/** Thirty dithers that both trains wait for. */
function night(seed: number, everyMs: number, aheadMs: number): TellingEvent[] {
  const random = seeded(seed);
  const events: TellingEvent[] = [];
  const log = (train: string, atMs: number, event: string): void =>
    void events.push({
      atMs: train === 'wren' ? atMs + aheadMs : atMs,
      event,
      train,
      ...(event.startsWith('exposure') ? { seconds: 200 } : {}),
      source: { file: train, line: events.length + 1 },
    } as TellingEvent);
  const both = (atMs: number, event: string): void => {
    log('heron', atMs, event);
    log('wren', Math.ceil(atMs / everyMs) * everyMs, event);
  };
  let calmMs = Date.UTC(2026, 10, 9, 19);
  for (let cycle = 0; cycle < 30; cycle++) {
    const readyMs = ['heron', 'wren'].map((train) => {
      let atMs = calmMs + random.whole(50, 300);
      for (let i = 0; i < 4; i++) {
        log(train, atMs, 'exposure-begin');
        log(train, atMs + 200_000, 'exposure-end');
        atMs += 202_000 + random.whole(0, 900);
      }
      return atMs;
    });
    const moveMs = Math.max(...readyMs) + 50;
    const stillMs = moveMs + random.whole(1500, 3000);
    calmMs = stillMs + random.whole(7000, 12_000);
    both(moveMs, 'dither-begin');
    both(stillMs, 'dither-end');
    both(stillMs, 'settling-begin');
    both(calmMs, 'settling-end');
  }
  return events;
}

describe('dithers that a second log tells late', () => {
  it.each([
    [5000, 0],
    [5000, -730_000],
    [10_000, 37_000],
  ])('do not make its clock late by them: every %i ms, %i ms ahead', (everyMs, aheadMs) => {
    const events = night(everyMs + aheadMs, everyMs, aheadMs);
    const lineTimes = lineTimesOf(events);
    const input = { trains: ['heron', 'wren'], headers: [], events, lineTimes, byHandMs: new Map() };
    const wren = compareClocks(input).notes.find(({ train }) => train === 'wren');
    expect(wren?.isKnown).toBe(true);
    expect(Math.abs((wren?.aheadMs ?? NaN) - aheadMs)).toBeLessThanOrEqual(600);
  });
});
