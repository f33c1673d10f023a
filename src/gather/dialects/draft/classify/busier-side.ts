/** Stamps of whole seconds and durations that are rounded differ by this much. */
export const SLACK_MS = 1500;

/**
 * On which side of an instant more happens, within a length of time: what lasts so long lies on the other.
 *
 * @param timesMs the times of all lines, in their order
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
