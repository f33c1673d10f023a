/** Tolerance between whole-second stamps and rounded durations. */
export const SLACK_MS = 1500;

/**
 * On which side of an instant more happens within a given duration: a span of that duration lies on the other side.
 *
 * @param timesMs the times of all lines, in order
 */
export function busierSide(timesMs: readonly number[], atMs: number, lastsMs: number): 'before' | 'after' | null {
  const after = linesBetween(timesMs, atMs + SLACK_MS, atMs + lastsMs - SLACK_MS);
  const before = linesBetween(timesMs, atMs - lastsMs + SLACK_MS, atMs - SLACK_MS);
  return after === before ? null : after > before ? 'after' : 'before';
}

function linesBetween(timesMs: readonly number[], fromMs: number, toMs: number): number {
  return Math.max(0, indexFrom(timesMs, toMs) - indexFrom(timesMs, fromMs));
}

function indexFrom(timesMs: readonly number[], wantedMs: number): number {
  let low = 0;
  let high = timesMs.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((timesMs[middle] ?? Infinity) < wantedMs) low = middle + 1;
    else high = middle;
  }
  return low;
}
