/** Density per ms of a delay x: exponential after 0, with a steep cutoff before. */
export function density(x: number, scaleMs: number, earlyMs: number): number {
  return Math.exp(x >= 0 ? -x / scaleMs : x / earlyMs) / (scaleMs + earlyMs);
}
