import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sum } from '../../src/model/index.js';
import { effectiveShare, varianceRate } from '../../src/worth/noise.js';
import { bestMeanSize, lowersMean, plainMeanWorth, stacksByLength } from '../../src/worth/stack.js';
import { seeded } from '../support/generator/random.js';
import { runs } from '../support/runs.js';

const worths = (maxLength: number) =>
  fc.array(fc.double({ min: 1, max: 1000, noNaN: true }), { minLength: 1, maxLength });

/** Every non-empty subset of a short list. */
function subsets(values: readonly number[]): number[][] {
  return Array.from({ length: 2 ** values.length - 1 }, (_none, i) =>
    values.filter((_value, bit) => ((i + 1) >> bit) & 1),
  );
}

describe('a plain mean', () => {
  it('is worth as much as the weighted stack where all frames are alike, and less where they differ', () => {
    expect(plainMeanWorth([200, 200, 200])).toBeCloseTo(600, 9);
    fc.assert(
      fc.property(worths(30), (effective) => {
        expect(plainMeanWorth(effective)).toBeLessThanOrEqual(sum(effective) * (1 + 1e-12));
      }),
    );
  });

  it('is lowered by a frame exactly when the rule says so', () => {
    fc.assert(
      fc.property(worths(30), fc.double({ min: 1, max: 1000, noNaN: true }), (stack, frame) => {
        const [without, withIt] = [plainMeanWorth(stack), plainMeanWorth([...stack, frame])];
        fc.pre(Math.abs(withIt - without) > 1e-9 * without);
        expect(lowersMean(frame, stack)).toBe(withIt < without);
      }),
    );
  });

  it('is worth nothing without frames', () => {
    expect(plainMeanWorth([])).toBe(0);
    expect(bestMeanSize([])).toBe(0);
    expect(lowersMean(1, [])).toBe(false);
  });
});

describe('the best plain mean', () => {
  it('is worth as much as the best of all subsets', () => {
    fc.assert(
      fc.property(worths(9), (effective) => {
        const sorted = [...effective].sort((a, b) => b - a);
        const best = Math.max(...subsets(sorted).map(plainMeanWorth));
        expect(plainMeanWorth(sorted.slice(0, bestMeanSize(sorted)))).toBeCloseTo(best, 6);
      }),
      runs(60),
    );
  });

  it('leaves out only frames that would lower it', () => {
    fc.assert(
      fc.property(worths(40), (effective) => {
        const sorted = [...effective].sort((a, b) => b - a);
        const size = bestMeanSize(sorted);
        const best = sorted.slice(0, size);
        for (const frame of sorted.slice(size)) expect(lowersMean(frame, best)).toBe(true);
      }),
    );
  });

  it('does not stop at the first frame that lowers it: a hundred poor frames outweigh one good one', () => {
    const effective = [100, ...new Array<number>(100).fill(25)];
    expect(lowersMean(25, [100])).toBe(true);
    expect(bestMeanSize(effective)).toBe(101);
  });
});

describe('the worth of a stack, against frames drawn at random', () => {
  // Twelve frames of 300 s under skies and through air that differ; signal 0.4 e⁻/s, all noise normal.
  const random = seeded(20261025);
  const reference = { sky: 1, dark: 0.001, readNoise: 1.5, seconds: 300 };
  const frames = [1, 1, 1.2, 1.5, 2, 3, 4, 5, 6, 8, 10, 12].map((sky, i) => ({
    ...reference,
    sky,
    transparency: 1 - 0.03 * i,
  }));
  const signal = 0.4;
  const weights = frames.map((f) => f.transparency / varianceRate(f));
  const runs = 4000;
  /** A variance from so many draws is good to √(2/runs) = 2.2 %; three times that is allowed. */
  const TOLERANCE = 3 * Math.sqrt(2 / runs);

  /** Effective seconds of a stack: its (S/N)² over that of one second of reference. */
  function measured(weigh: (i: number) => number): number {
    const scale = sum(frames.map((f, i) => weigh(i) * f.transparency));
    let squares = 0;
    for (let run = 0; run < runs; run++) {
      const stack = sum(
        frames.map((f, i) => weigh(i) * random.normal(f.transparency * signal, Math.sqrt(varianceRate(f) / f.seconds))),
      );
      squares += (stack / scale - signal) ** 2;
    }
    return varianceRate(reference) / (squares / runs);
  }

  const effective = frames.map((f) => f.seconds * effectiveShare(f.transparency, f, reference));

  it('is Σ t·g with weights τ/σ²', () => {
    expect(Math.abs(measured((i) => weights[i] ?? 0) / sum(effective) - 1)).toBeLessThan(TOLERANCE);
  });

  it('is N²·t/Σ(1/g) as a plain mean of frames brought to one scale', () => {
    expect(Math.abs(measured((i) => 1 / (frames[i]?.transparency ?? 1)) / plainMeanWorth(effective) - 1)).toBeLessThan(
      TOLERANCE,
    );
    expect(plainMeanWorth(effective)).toBeLessThan(0.7 * sum(effective));
  });
});

describe('frames of several lengths', () => {
  const frame = (exposureMs: number) => ({ exposureMs });

  it('are a stack for each length, and what a shutter takes longer makes no other length', () => {
    const stacks = stacksByLength([300_000, 500, 300_140, 60_000, 505, 299_900].map(frame));
    expect(stacks.map((stack) => stack.map(({ exposureMs }) => exposureMs))).toEqual([
      [500, 505],
      [60_000],
      [299_900, 300_000, 300_140],
    ]);
  });

  it('do not chain: lengths that differ little from one to the next are not all one', () => {
    const lengths = Array.from({ length: 30 }, (_, i) => frame(60_000 * 1.05 ** i));
    for (const stack of stacksByLength(lengths)) {
      expect(stack.at(-1)!.exposureMs / stack[0]!.exposureMs).toBeLessThanOrEqual(1.1);
    }
    expect(stacksByLength([])).toEqual([]);
  });
});
