/** The cost of filter changes: to their own train, and to trains that wait for it at dithers. */
import {
  clip,
  coveredMs,
  durationMs,
  interval,
  ownValue,
  sum,
  union,
  type Interval,
  type NightFacts,
} from '../model/index.js';
import type { TrainSpan } from './finding.js';

/** The changes of one train's filter, from log or gaps. */
export function filterChanges(night: NightFacts, train: string): readonly Interval[] {
  return night.timeline.activities.filter((a) => a.kind === 'filter' && a.train === train).map(({ span }) => span);
}

/**
 * The final parts of other trains' waits for a train that held a dither, up to the amount by which its filter change
 * since the previous dither exceeded theirs.
 */
export function filterWaits(night: NightFacts, holder: string): TrainSpan[] {
  const spansOf = new Map(night.gathered.trains.map(({ id }) => [id, union(filterChanges(night, id))]));
  return night.accounts.dithers.flatMap((cycle, i): TrainSpan[] => {
    const sinceMs = night.accounts.dithers[i - 1]?.beginMs;
    if (cycle.holder !== holder || sinceMs === undefined) return [];
    const since = interval(sinceMs, Math.max(sinceMs, cycle.beginMs));
    const changedMs = (id: string): number => coveredMs(clip(spansOf.get(id) ?? [], since));
    return [...spansOf.keys()].flatMap((train): TrainSpan[] => {
      const waitMs = train === holder ? undefined : ownValue(cycle.waits, train)?.waitMs;
      const ms = Math.min(waitMs ?? -1, changedMs(holder) - changedMs(train));
      return ms > 0 ? [{ train, span: interval(cycle.beginMs - ms, cycle.beginMs) }] : [];
    });
  });
}

/** Total length of spans, ms of train time. */
export function lengthOf(spans: readonly TrainSpan[]): number {
  return sum(spans.map(({ span }) => durationMs(span)));
}
