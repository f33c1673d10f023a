import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Offer } from './offers.js';
import type { Taken } from './withdrawal.js';

/** The classification of a kind of line, and its certainty. */
export interface Verdict {
  /** `null` if the evidence is too weak, or two events are too close. */
  readonly event: EventName | null;
  readonly score: number;
  /** Lead of the event over the next best. */
  readonly margin: number;
  /** All possible events, likeliest first; a doubted event counts less. */
  readonly offers: (doubted: readonly EventName[]) => readonly Offer[];
  /** The next best event, if the timeline is hardly worse with it than without. */
  readonly next: EventName | null;
}

/** For a kind without any evidence. */
export const NOTHING_SAID: Verdict = { event: null, score: 0, margin: 0, offers: () => [], next: null };

/** The classified kinds; rows that state both ends of a span contradict nothing. */
export function takenOf(verdicts: ReadonlyMap<Kind, Verdict>, ranges: ReadonlySet<Kind>): Map<Kind, Taken> {
  return new Map(
    [...verdicts].flatMap(([kind, { event, next }]): [Kind, Taken][] =>
      event === null || ranges.has(kind) ? [] : [[kind, { event, next: next === event ? null : next }]],
    ),
  );
}

/** Reclassifies a kind as another event, or none. Never certain. */
export function withdraw(verdicts: Map<Kind, Verdict>, kind: Kind, event: EventName | null): void {
  const verdict = verdicts.get(kind);
  if (verdict !== undefined) verdicts.set(kind, { ...verdict, event, margin: 0 });
}
