/** Density per ms at x of a delay: exponential after 0, falling off at once before. */
export function density(x: number, scaleMs: number, earlyMs: number): number {
  return Math.exp(x >= 0 ? -x / scaleMs : x / earlyMs) / (scaleMs + earlyMs);
}
