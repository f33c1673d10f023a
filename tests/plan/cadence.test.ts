import { describe, expect, it } from 'vitest';
import { cadenceOf } from '../../src/plan/cadence.js';

const train = (name: string, seconds: number, between = 5) => ({
  train: name,
  subMs: seconds * 1000,
  betweenSubsMs: between * 1000,
});

describe('cadenceOf', () => {
  it('brings subs of 300 s and 150 s together without a wait to speak of', () => {
    const { subs, waitMs } = cadenceOf([train('heron', 300), train('wren', 145)], 20_000);
    expect(subs[1]).toBe(2 * (subs[0] ?? 0) + (305 * (subs[0] ?? 0) - 300 * (subs[0] ?? 0) >= 150 ? 1 : 0));
    expect(Math.max(...waitMs)).toBeLessThan(150_000);
  });

  it('finds by hand: 7 and 6 minutes dither after 2 and 2, for 1 and 1 waste more than the dither saved', () => {
    // Runs of up to 15 min: 14:10 holds 2 subs of either train (waits 0 and 2:00); 7:05 holds 1 and 1; 12:10 holds 1 and 2.
    // Open ÷ clock: (840 + 720)/870 = 1.793, (420 + 360)/445 = 1.753, (420 + 720)/750 = 1.52.
    const { subs, waitMs, openShares } = cadenceOf([train('heron', 420), train('wren', 360)], 20_000);
    expect(subs).toEqual([2, 2]);
    expect(waitMs).toEqual([0, 120_000]);
    expect(openShares[0]).toBeCloseTo(840 / 870, 12);
  });

  it('dithers after each of subs that are longer than any run', () => {
    expect(cadenceOf([train('heron', 1200), train('wren', 300)], 20_000)).toMatchObject({ subs: [1, 3] });
  });

  it('dithers no more often than every 5 minutes with short subs', () => {
    const { runMs } = cadenceOf([train('heron', 10), train('wren', 10)], 0);
    expect(runMs).toBeGreaterThanOrEqual(300_000);
    expect(runMs).toBeLessThanOrEqual(900_000);
  });

  it('is in step for every pair: each train’s subs and wait fill the same run', () => {
    for (let a = 30; a <= 900; a += 30)
      for (let b = 30; b <= 900; b += 90) {
        const trains = [train('heron', a), train('wren', b, 2)];
        const { subs, waitMs, runMs } = cadenceOf(trains, 20_000);
        trains.forEach(({ subMs, betweenSubsMs }, i) => {
          expect((subs[i] ?? 0) * (subMs + betweenSubsMs) + (waitMs[i] ?? NaN)).toBeCloseTo(runMs, 6);
          expect(waitMs[i]).toBeGreaterThanOrEqual(0);
        });
      }
  });
});
