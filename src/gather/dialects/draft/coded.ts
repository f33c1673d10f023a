import type { Kind } from './kinds/kind.js';
import type { Reading } from './reading/reading.js';

/** A log with codes, read as if it had words in their place. */
export interface InWords {
  readonly reading: Reading;
  /** A kind of its lines or rows with the log's own columns and codes in its patterns. */
  asWritten(kind: Kind): Kind;
  /** The lines that explain the codes. */
  readonly legend: ReadonlySet<string>;
}
