import type { ActivityKind } from '../vocabulary/index.js';
import type { Interval } from './interval.js';
import type { Source } from './source.js';

/** How sure a statement is. `measured`: log or header say so. `inferred`: concluded from gaps. `assumed`: a stated default. */
export type Certainty = 'measured' | 'inferred' | 'assumed';

/** A labelled span on a lane of the timeline. */
export interface Activity {
  readonly kind: ActivityKind;
  readonly span: Interval;
  /** The train it belongs to (focus, filter, readout, dither-ready, one train's hold), or absent when shared. */
  readonly train?: string;
  /** The train whose doing it was, where known: who dithered, whose refocus paused the guiding. */
  readonly causedBy?: string;
  /** Free text from the log: why a hold, why a pause. */
  readonly why?: string;
  readonly certainty: Certainty;
  readonly sources: readonly Source[];
  /** Facts of the closing event: `ok`, sizes, position, temperature, pixels, the filter's name. */
  readonly facts?: ActivityFacts;
}

export interface ActivityFacts {
  readonly ok?: boolean;
  readonly pixels?: number;
  readonly sizeBefore?: number;
  readonly sizeAfter?: number;
  readonly position?: number;
  readonly temperature?: number;
  readonly to?: string;
}
