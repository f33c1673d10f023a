import type { LogEvent } from '../../../../src/model/index.js';

/** How well events found agree with the truth: by name, and by time within a tolerance, each used once. */
export interface Score {
  readonly truth: number;
  readonly matched: number;
  readonly found: number;
  /** True events that were not found, and found events that are not true. */
  readonly missed: readonly LogEvent[];
  readonly invented: readonly LogEvent[];
  /** Pairs of a true and the found event. */
  readonly pairs: readonly (readonly [LogEvent, LogEvent])[];
}

export function score(truth: readonly LogEvent[], found: readonly LogEvent[], toleranceMs: number): Score {
  const free = new Set(found);
  const missed: LogEvent[] = [];
  const pairs: [LogEvent, LogEvent][] = [];
  for (const event of truth) {
    let best: LogEvent | undefined;
    for (const candidate of free) {
      if (candidate.event !== event.event || Math.abs(candidate.atMs - event.atMs) > toleranceMs) continue;
      if (best === undefined || Math.abs(candidate.atMs - event.atMs) < Math.abs(best.atMs - event.atMs))
        best = candidate;
    }
    if (best === undefined) missed.push(event);
    else {
      free.delete(best);
      pairs.push([event, best]);
    }
  }
  return { truth: truth.length, matched: pairs.length, found: found.length, missed, invented: [...free], pairs };
}
