import type { Source } from './source.js';

/**
 * Something the reader of the report must know: unreadable input, a clock that disagrees, a frame known from one source
 * only. A warning never fails a report.
 */
export interface Warning {
  /** Kebab-case noun for the state, stable for programs that read the record: `truncated-header`. */
  readonly code: string;
  /** A full sentence that names what is wrong and what to do. */
  readonly message: string;
  readonly source?: Source;
  /** The train concerned, if any. */
  readonly train?: string;
  /** How many occurrences this statement covers; 1 when absent. */
  readonly count?: number;
}
