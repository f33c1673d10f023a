/** Uniform numbers in [0, 1) from a seed: the same seed gives the same estimate on every machine. */
export function seededRandom(seed: number): () => number {
  // A 32-bit counter whose bits are mixed by multiplications (the construction known as mulberry32, public domain).
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
