import { dateIn, type HeadLine } from './base-lines.js';
import { instant } from './night-evidence.js';

/** A stamped line and its time, ms of its own clock on any day. */
export interface Clock {
  readonly line: number;
  readonly atMs: number;
}

const DAY_MS = 86_400_000;
const HALF_DAY_MS = DAY_MS / 2;

/**
 * How often the times below dated headings jump by more than half a day, forwards or back, from one to the next: the
 * date of a report made after midnight is not that of the evening it tells of.
 */
export function jumpsUnder(
  { when, pattern }: { readonly when: string; readonly pattern: string },
  clocks: readonly Clock[],
  unstamped: readonly HeadLine[],
): number {
  const days = unstamped.flatMap(({ text, number, isCut }) => {
    const ms = dateIn(text, false, isCut)?.when === when ? instant(pattern, text) : NaN;
    return Number.isNaN(ms) ? [] : [{ number, dayMs: Math.floor(ms / DAY_MS) * DAY_MS }];
  });
  let next = 0;
  let dayMs = NaN;
  let last = NaN;
  let jumps = 0;
  for (const { line, atMs } of clocks) {
    if (Number.isNaN(atMs)) continue;
    for (let day = days[next]; day !== undefined && day.number < line; day = days[++next]) dayMs = day.dayMs;
    // A heading further down dates nothing above it.
    if (Number.isNaN(dayMs)) return Infinity;
    const ms = dayMs + (((atMs % DAY_MS) + DAY_MS) % DAY_MS);
    if (Math.abs(ms - last) > HALF_DAY_MS) jumps++;
    last = ms;
  }
  return jumps;
}
