import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Offer } from './offers.js';
import type { Taken } from './withdrawal.js';

/** What a kind of line is taken for, and how surely. */
export interface Verdict {
  /** `null` where the evidence is too weak, or two events are too close. */
  readonly event: EventName | null;
  readonly score: number;
  /** How far the event is ahead of the next best one. */
  readonly margin: number;
  /** All that it may tell, the likeliest first; what was made of it and is doubted counts less. */
  readonly offers: (doubted: readonly EventName[]) => readonly Offer[];
  /** What comes next, where the night is hardly worse for it than for nothing. */
  readonly next: EventName | null;
}

/** Of a kind that nothing is known of. */
export const NOTHING_SAID: Verdict = { event: null, score: 0, margin: 0, offers: () => [], next: null };

/** What is taken for something; rows that state both ends of a thing contradict nothing. */
export function takenOf(verdicts: ReadonlyMap<Kind, Verdict>, ranges: ReadonlySet<Kind>): Map<Kind, Taken> {
  return new Map(
    [...verdicts].flatMap(([kind, { event, next }]): [Kind, Taken][] =>
      event === null || ranges.has(kind) ? [] : [[kind, { event, next: next === event ? null : next }]],
    ),
  );
}

/** Takes a kind for another event, or for none. Never sure. */
export function withdraw(verdicts: Map<Kind, Verdict>, kind: Kind, event: EventName | null): void {
  const verdict = verdicts.get(kind);
  if (verdict !== undefined) verdicts.set(kind, { ...verdict, event, margin: 0 });
}
