import type { ActivityKind, FactOf, FieldName, FieldValue } from '../vocabulary/index.js';
import type { Interval } from './interval.js';
import type { Source } from './source.js';

/**
 * How certain a statement is. `measured`: from log or header. `inferred`: derived from gaps. `assumed`: a stated
 * default.
 */
export type Certainty = 'measured' | 'inferred' | 'assumed';

/** Common fields of every activity. */
export interface ActivityOutline<K extends ActivityKind = ActivityKind> {
  readonly kind: K;
  readonly span: Interval;
  /** The train it belongs to (focus, filter, readout, dither-ready, one train's hold), or absent when shared. */
  readonly train?: string;
  /** The train that caused it, if known: who dithered, whose refocus paused the guiding. */
  readonly causedBy?: string;
  /** Free text from the log: why a hold, why a pause. */
  readonly why?: string;
  readonly certainty: Certainty;
  readonly sources: readonly Source[];
}

/** The facts a log may state for an activity of the kind. */
export type FactsOf<K extends ActivityKind> = { readonly [F in FactOf<K> & FieldName]?: FieldValue<F> };

/** An activity of the kind; kinds without loggable facts have none. */
export type ActivityOf<K extends ActivityKind> = K extends ActivityKind
  ? ActivityOutline<K> & ([FactOf<K>] extends [never] ? unknown : { readonly facts?: FactsOf<K> })
  : never;

/** A labelled span on a lane of the timeline. Its kind says which facts it may have. */
export type Activity = ActivityOf<ActivityKind>;

/** Whether an activity is of one of the kinds. */
export function isActivityOf<K extends ActivityKind>(
  activity: Activity,
  kinds: readonly K[],
): activity is ActivityOf<K> {
  return (kinds as readonly ActivityKind[]).includes(activity.kind);
}
