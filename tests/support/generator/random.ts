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
 * Uniform numbers in [0, 1) from a seed; the one source of all that tests invent. A 32-bit mixing generator (public
 * domain construction by T. Ettinger, "mulberry32"; written from memory) rather than a library's, because the committed
 * samples are what came out of it.
 */
export function uniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** The same numbers, as what simulators ask for. */
export function seeded(seed: number): Random {
  const next = uniform(seed);
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
