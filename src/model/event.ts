import type { EventName, FieldName, FieldValue } from '../vocabulary/index.js';
import type { Source } from './source.js';

/** Facts an event may carry, each absent unless the log states it. Units and bounds stand in the vocabulary. */
export type EventFields = { readonly [F in FieldName]?: FieldValue<F> };

/** One thing that happened, at one instant. */
export interface LogEvent extends EventFields {
  /** UTC milliseconds since the epoch, as the writing computer's clock had it. */
  readonly atMs: number;
  readonly event: EventName;
  /** The train whose log said so; absent for logs of no train (a guide computer, say). */
  readonly train?: string;
  readonly source: Source;
}
