import { CAUTION } from '../../src/model/index.js';
import { describe, expect, it } from 'vitest';
import { settleTime } from '../../src/findings/settle-time.js';
import { seeded } from '../support/generator/random.js';
import { ask, dithered, found, guidingOf, lights, minutes, nightOf, quick } from './support.js';

const TRAINS = { heron: { seconds: 180, count: 3 }, wren: { seconds: 180, count: 3 } } as const;
const plan = (settle: number, more: { settledOk?: (block: number) => boolean; move?: number } = {}) =>
  dithered({ blocks: 20, trains: TRAINS, settle, ...more });
const BLOCK = 3 * 183;

describe('settling after dithers', () => {
  it('is found too long by what is usual, on both trains, where no samples tell', () => {
    const [finding] = found(settleTime, nightOf(plan(40)));
    // After the last of the twenty dithers nobody exposes, so that nobody waits for its settling.
    expect(minutes(finding?.costMs)).toBeCloseTo((2 * 19 * (40 - 12)) / 60, 6);
    expect(finding).toMatchObject({ confidence: 'medium', caution: CAUTION });
  });

  it('is found too long by the guiding samples, which say when the mount was quiet', () => {
    const cycle = BLOCK + 4 + 25;
    // After each move the error falls within five seconds; then it is as quiet as all night.
    const guiding = guidingOf(0, 20 * cycle, 1, (t, i) => {
      const since = (t % cycle) - (BLOCK + 4);
      return since >= -4 && since < 5 ? [4, 4] : [quick(0.3, i), quick(0.3, i)];
    });
    const [finding] = found(settleTime, nightOf({ ...plan(25), guiding }));
    expect(finding?.confidence).toBe('high');
    // Quiet after 5 s, and 4 s more as proof, of 25 s: 16 s too long, or nearly, for two trains at 20 dithers.
    expect(minutes(finding?.costMs)).toBeGreaterThan((2 * 20 * 14) / 60);
    expect(minutes(finding?.costMs)).toBeLessThan((2 * 20 * 17) / 60);
  });

  it('is found too long though the noise of the guiding crosses the limit now and then', () => {
    const cycle = BLOCK + 4 + 40;
    // Errors of both axes scatter normally: one sample in ten lies beyond 1.5 times their RMS (Rayleigh distribution).
    const random = seeded(7);
    const guiding = guidingOf(0, 20 * cycle, 2, (t) => {
      const since = (t % cycle) - (BLOCK + 4);
      const moved = since >= -4 && since < 6 ? 4 : 0;
      return [moved + random.normal(0, 0.4), random.normal(0, 0.4)];
    });
    const [finding] = found(settleTime, nightOf({ ...plan(40), guiding }));
    // Quiet after 6 s, and as soon as three samples have proved it of 40 s: 25 to 30 s too long for two trains.
    expect(minutes(finding?.costMs)).toBeGreaterThan((2 * 19 * 25) / 60);
    expect(minutes(finding?.costMs)).toBeLessThan((2 * 19 * 30) / 60);
  });

  it('is not found when it is as long as the mount needs', () => {
    const cycle = BLOCK + 4 + 25;
    const guiding = guidingOf(0, 20 * cycle, 1, (t, i) => {
      const since = (t % cycle) - (BLOCK + 4);
      return since >= -4 && since < 22 ? [4, 4] : [quick(0.3, i), quick(0.3, i)];
    });
    expect(found(settleTime, nightOf({ ...plan(25), guiding }))).toEqual([]);
    expect(found(settleTime, nightOf(plan(12)))).toEqual([]);
  });

  it('is found too strict where it gave up', () => {
    const [finding] = found(settleTime, nightOf(plan(60, { settledOk: (block) => block % 3 !== 0 })));
    expect(finding?.title).toBe('Settling gave up 7 times: its limit is too strict');
  });

  it('is not assessed where no settling is logged', () => {
    expect(ask(settleTime, nightOf({ frames: lights('heron', { from: 0, seconds: 60, count: 4 }) }))).toEqual({
      notAssessed: 'settling after dithers in the log',
    });
  });
});
