import type { Source } from './source.js';

/**
 * Something the reader of the report must know: input that could not be read, a clock that disagrees,
 * a frame that stands on one side only. A warning never fails a report.
 */
export interface Warning {
  /** Kebab-case noun for the state, stable for programs that read the record: `truncated-header`. */
  readonly code: string;
  /** A full sentence that names what is wrong and what to do. */
  readonly message: string;
  readonly source?: Source;
  /** The train that it is about, where it is about one. */
  readonly train?: string;
  /** How many occurrences this one statement stands for; 1 when absent. */
  readonly count?: number;
}
