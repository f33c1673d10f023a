import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { BY_TRAIN } from './consistency.js';
import type { Occurrence } from './occurrences.js';

/** Which train the nth line of a kind is about; −1 if it names none. */
export type TrainOf = (kind: Kind, nth: number) => number;

/** The event of a kind, and the next best. */
export interface Taken {
  readonly event: EventName;
  readonly next: EventName | null;
}

/** Fewer contradictions may be accidents. */
const FEW = 3;
const FEW_SHARE = 0.04;
/** A change must save this many contradictions per line affected. */
const SPARED = 0.4;
const MAX_CHANGES = 8;

/**
 * Withdraws, or replaces with the next best event, the kinds that make the timeline contradict itself: an exposure that
 * begins before the last has ended, an end of what never began. At each step the change that saves most contradictions
 * is made.
 *
 * @returns the changed kinds, `null` for those that are unclassified now
 */
export function withdrawn(
  taken: ReadonlyMap<Kind, Taken>,
  timeline: readonly Occurrence[],
  trainOf: TrainOf = () => -1,
): Map<Kind, EventName | null> {
  const { labels, lines } = asTaken(taken, timeline);
  const changed = new Map<Kind, EventName | null>();
  for (let i = 0; i < MAX_CHANGES; i++) {
    const before = contradictions(labels, lines, trainOf);
    if (before < Math.max(FEW, FEW_SHARE * lines.length)) break;
    let best: { kind: Kind; event: EventName | null; spared: number } | null = null;
    for (const [kind, { event, next }] of taken) {
      if (changed.has(kind)) continue;
      for (const other of next === null ? [null] : [next, null]) {
        labels.set(kind, other);
        const spared = (before - contradictions(labels, lines, trainOf)) / Math.max(1, kind.count);
        if (spared >= SPARED && spared * kind.count >= FEW && spared > (best?.spared ?? 0))
          best = { kind, event: other, spared };
      }
      labels.set(kind, event);
    }
    if (best === null) break;
    labels.set(best.kind, best.event);
    changed.set(best.kind, best.event);
  }
  return changed;
}

/** The classification of each kind, subject to trial changes, and the lines of these kinds. */
function asTaken(
  taken: ReadonlyMap<Kind, Taken>,
  timeline: readonly Occurrence[],
): { readonly labels: Map<Kind, EventName | null>; readonly lines: readonly Occurrence[] } {
  return {
    labels: new Map([...taken].map(([kind, { event }]) => [kind, event])),
    lines: timeline.filter(({ kind }) => taken.has(kind)),
  };
}

/** Number of mutually contradictory lines, where the log reports both sides of a span. */
function contradictions(
  labels: ReadonlyMap<Kind, EventName | null>,
  lines: readonly Occurrence[],
  trainOf: TrainOf,
): number {
  const logged = new Set(labels.values());
  const open = new Set<string>();
  const nths = new Map<Kind, number>();
  let count = 0;
  for (const { kind } of lines) {
    const event = labels.get(kind) ?? null;
    const nth = nths.get(kind) ?? 0;
    nths.set(kind, nth + 1);
    if (event === null) continue;
    const end = endOf(event);
    const begin = beginOf(event);
    const train = BY_TRAIN.test(event) ? trainOf(kind, nth) : -1;
    if (begin !== undefined) {
      if (logged.has(begin) && !open.delete(`${begin} ${train}`)) count++;
    } else if (end !== undefined && logged.has(end)) {
      const key = `${event} ${train}`;
      if (open.has(key)) count++;
      open.add(key);
    }
  }
  return count;
}

/** The fraction of a kind's lines that contradict the others under the current classification. */
export function disputed(
  taken: ReadonlyMap<Kind, Taken>,
  timeline: readonly Occurrence[],
  trainOf: TrainOf,
): Map<Kind, number> {
  const { labels, lines } = asTaken(taken, timeline);
  const all = contradictions(labels, lines, trainOf);
  const shares = new Map<Kind, number>();
  if (all === 0) return shares;
  for (const [kind, { event }] of taken) {
    labels.set(kind, null);
    shares.set(kind, (all - contradictions(labels, lines, trainOf)) / Math.max(1, kind.count));
    labels.set(kind, event);
  }
  return shares;
}
