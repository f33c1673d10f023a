/** Activities of a timeline, for tests. */
import type { Activity, ActivityKind, ActivityOutline, FactsOf, Interval } from '../../src/model/index.js';

/** What an activity of the kind may have beside its kind and span. */
export type More<K extends ActivityKind> = Partial<Omit<ActivityOutline, 'kind'>> & { readonly facts?: FactsOf<K> };

/** An activity, measured and of no source unless said. */
export function activityOf<K extends ActivityKind>(kind: K, span: Interval, more: More<K> = {}): Activity {
  // `more` holds the facts of this kind alone, which the compiler does not carry through the spread.
  return { kind, span, certainty: 'measured', sources: [], ...more } as Activity;
}
