import { describe, expect, it } from 'vitest';
import { subLength } from '../../src/findings/sub-length.js';
import { NEEDS } from '../../src/findings/finding.js';
import { totalKey, type Night, type SubLength } from '../../src/model/index.js';
import { worthyNight } from '../support/worthy-night.js';

const SUB: SubLength = {
  seconds: 300,
  skyElectronsPerSecond: 0.019,
  darkElectronsPerSecond: 0.001,
  readNoiseElectrons: 1.5,
  extraNoise: 0.17,
  enoughSeconds: 1098,
  tolerated: 0.05,
  pauseSeconds: 3,
  lostFrames: 0,
  best: { seconds: 900, extraNoise: 0.06, winMs: 20 * 60_000 },
};

/** The night of one train with one total's subs as given, and no other subs. */
function nightWith(sub: SubLength | null): Night {
  const night = worthyNight('twin-night');
  return {
    ...night,
    gathered: { ...night.gathered, trains: night.gathered.trains.slice(0, 1) },
    worth: night.worth && {
      ...night.worth,
      totals: Object.fromEntries(
        Object.entries(night.worth.totals).map(([key, worth], i) => [key, { ...worth, sub: i === 0 ? sub : null }]),
      ),
    },
  };
}

const found = (sub: SubLength | null) => subLength.find(nightWith(sub), subLength.defaults);

describe('the length of the subs', () => {
  it('too short: costs what the read noise took, and says how long would be better', () => {
    const [finding] = found(SUB);
    const { ms } = nightWith(SUB).accounts.totals[0] ?? { ms: { kept: NaN } };
    expect(finding?.title).toContain('too short');
    expect(finding?.costMs).toBeCloseTo(ms.kept * (1 - 1 / 1.17 ** 2), 3);
    expect(finding).toMatchObject({ winMs: 20 * 60_000 });
    expect(finding?.advice).toContain('about 900 s');
    expect(finding?.evidence.join(' ')).toMatch(/17 % more noise.*it would be 5 % at 1098 s/);
  });

  it('needlessly long: costs what the lost frames took with them', () => {
    const [finding] = found({
      ...SUB,
      extraNoise: 0.004,
      enoughSeconds: 20,
      lostFrames: 5,
      best: { seconds: 100, extraNoise: 0.01, winMs: 12 * 60_000 },
    });
    expect(finding?.title).toContain('longer than they needed to be');
    expect(finding?.costMs).toBe(5 * 300_000);
    expect(finding?.advice).toContain('about 100 s');
  });

  it('well chosen: nothing is said', () => {
    expect(found({ ...SUB, best: { seconds: 300, extraNoise: 0.17, winMs: 0 } })).toEqual([]);
    expect(found({ ...SUB, best: { seconds: 600, extraNoise: 0.1, winMs: 60_000 } })).toEqual([]);
  });

  it('is not assessed without the read noise', () => {
    expect(NEEDS['read-noise'].has(nightWith(null))).toBe(false);
    expect(NEEDS['read-noise'].has(nightWith(SUB))).toBe(true);
    expect(NEEDS['read-noise'].missing).toContain('read noise');
  });

  it('of two trains: the lengths that are advised meet at the dither, or it is said that they do not', () => {
    for (const [heron, wren] of [
      [900, 720],
      [600, 480],
      [900, 450],
      [480, 720],
    ] as const) {
      const advice = twins({ heron, wren })[0]?.advice ?? '';
      const lengths = [...advice.matchAll(/([\d.]+) s in /g)].map(([, a]) => Number(a));
      const [longer, shorter] = [Math.max(...lengths), Math.min(...lengths)];
      // With pauses of 3 s.
      const times = Math.round((longer + 3) / (shorter + 3));
      expect(Math.abs(times * (shorter + 3) - longer - 3), advice).toBeLessThanOrEqual(10);
      expect(advice).toContain('With these lengths the trains end together at the dither.');
      // Nobody sets 727 s.
      for (const seconds of lengths) expect(seconds % 10, advice).toBe(0);
    }
  });
});

/** Both trains' subs were too short, and would have been best at these lengths. */
function twins(best: Readonly<Record<string, number>>) {
  const night = worthyNight('twin-night');
  const totals = new Map(night.accounts.totals.map((total) => [totalKey(total), total.train]));
  return subLength.find(
    {
      ...night,
      worth: night.worth && {
        ...night.worth,
        totals: Object.fromEntries(
          Object.entries(night.worth.totals).map(([key, worth]) => [
            key,
            { ...worth, sub: { ...SUB, best: { ...SUB.best, seconds: best[totals.get(key) ?? ''] ?? NaN } } },
          ]),
        ),
      },
    },
    subLength.defaults,
  );
}
