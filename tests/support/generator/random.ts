import { seededRandom } from '../../../src/outlook/random.js';

/** Seeded random numbers, so that samples are the same on every machine. */
export interface Random {
  /** Uniform in [0, 1). */
  next(): number;
  /** Uniform whole number in [low, high]. */
  whole(low: number, high: number): number;
  /** Normal deviate by the polar method. */
  normal(mean: number, sigma: number): number;
}

/**
 * Uniform numbers in [0, 1) from a seed; the one source of all that tests invent. They are the program's own numbers:
 * the committed samples are what came out of them.
 */
export { seededRandom as uniform };

/** The same numbers, as what simulators ask for. */
export function seeded(seed: number): Random {
  const next = seededRandom(seed);
  return {
    next,
    whole: (low, high) => low + Math.floor(next() * (high - low + 1)),
    normal: (mean, sigma) => {
      for (;;) {
        const x = 2 * next() - 1;
        const y = 2 * next() - 1;
        const r = x * x + y * y;
        if (r > 0 && r < 1) return mean + sigma * x * Math.sqrt((-2 * Math.log(r)) / r);
      }
    },
  };
}
