import { describe, expect, it } from 'vitest';
import { driftAboutAgreement, isFarAndDoubtful } from '../../../src/reconstruct/clocks/far-offset.js';

/** A dither every 16 min and some seconds, no two alike, and a focus run at every sixth: what repeats in 98 min. */
const CYCLES = Array.from({ length: 19 }, (_, i) => 981_000 + (i % 6 === 5 ? 140_000 : 0) + ((i * i * 7919) % 3800));
const PERIOD_MS = 6 * 981_000 + 140_000;
const pauses = CYCLES.map((_, i) => {
  const moveMs = CYCLES.slice(0, i + 1).reduce((a, b) => a + b, 0);
  return { moveMs, resumeMs: moveMs + 11_000, by: 'log', resumesBy: 'log' } as const;
});

/** A companion that closes its shutter half a second before each dither and opens it as soon after. */
const companion = (aheadMs: (hours: number) => number) => {
  const at = (ms: number): number => Math.round(ms + aheadMs(ms / 3_600_000));
  const shutters = [{ moveMs: -11_000, resumeMs: 0 }, ...pauses].flatMap(({ resumeMs }, i) => {
    const untilMs = (pauses[i]?.moveMs ?? resumeMs + 981_000) - 500;
    const lengthMs = (untilMs - resumeMs - 500) / 4;
    return Array.from({ length: 4 }, (_, k) => {
      const beginMs = at(resumeMs + 500 + k * lengthMs);
      const endMs = at(resumeMs + 500 + (k + 1) * lengthMs - (k < 3 ? 2000 : 0));
      return { beginMs, endMs, readyMs: endMs, notBeforeMs: endMs };
    });
  });
  return { shutters, pauses, shared: [], cadenceMs: 245_000, favouredMs: [0] };
};

describe('an offset far from agreement', () => {
  it('is doubtful where it fits by what repeats in the night, and is not where it is true', () => {
    const agreeing = companion(() => 0);
    expect(isFarAndDoubtful(agreeing, PERIOD_MS)).toBe(true);
    const ahead = companion(() => 3_612_000);
    expect(isFarAndDoubtful(ahead, 3_612_000)).toBe(false);
    // By one that is too far the train would not have exposed while the mount dithered.
    expect(isFarAndDoubtful(ahead, 3_612_000 + 4 * 3_600_000)).toBe(true);
    // Near agreement is another matter: a habit, or a clock that was set.
    expect(isFarAndDoubtful(agreeing, 8000)).toBe(false);
  });

  it('gives way to a drift about agreement that explains the dithers better', () => {
    const drift = driftAboutAgreement(
      companion((hours) => 2000 * hours),
      PERIOD_MS,
    );
    expect(Math.abs((drift?.perHourMs ?? NaN) - 2000)).toBeLessThan(50);
    expect(
      driftAboutAgreement(
        companion(() => 0),
        PERIOD_MS,
      ),
    ).toBeNull();
  });
});
