/** A companion that is ready the same moment before every dither waits: its clock is not behind by so much. */
import { describe, expect, it } from 'vitest';
import { simulate } from '../../support/generator/simulate.js';
import { HERON, WREN } from '../../support/generator/scenarios.js';
import { randomNight, rebuild } from '../../support/random-night.js';
import { seeded } from '../../support/generator/random.js';
import { inFull } from '../../support/runs.js';

/** A dither after each frame, or few; the companion's frames are a moment shorter than the pilot's. */
function lockedNight(seed: number) {
  const random = seeded(seed);
  const seconds = [120, 180, 300][random.whole(0, 2)] ?? 300;
  const plan = (length: number) => [{ target: 'NGC 281', filter: 'Ha', seconds: length, count: 999 }];
  return {
    ...randomNight(seed),
    end: '2026-10-15T01:30:00.000Z',
    ditherEvery: random.whole(1, 2),
    clouds: [],
    trains: [
      { ...HERON, plan: plan(seconds), refocusAfter: [30] },
      { ...WREN, plan: plan(seconds - random.whole(2, 14)), refocusAfter: [] },
    ],
  };
}

const SEEDS = inFull([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16], [3, 8]);

describe('waits that are all alike', () => {
  it.each(SEEDS)('are no clock that is behind: random night %i', (seed) => {
    const simulation = simulate(lockedNight(seed));
    const aheadOf = (aheadMs: number): number | undefined =>
      rebuild(simulation, ['heron', 'wren'], { 'wren/log': aheadMs, 'wren/headers': aheadMs }).clocks.find(
        ({ train, source }) => train === 'wren' && source === 'log',
      )?.aheadMs;
    for (const trueMs of [0, -8000, 47_000, 200_000])
      expect(Math.abs((aheadOf(trueMs) ?? NaN) - trueMs), `ahead by ${trueMs} ms`).toBeLessThan(2000);
  });
});
