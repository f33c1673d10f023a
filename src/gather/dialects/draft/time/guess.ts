import type { StampPlace } from '../../time/stamp.js';

/** How the lines of a log are stamped. */
export interface StampGuess {
  /** A time pattern of a dialect, with the text before the stamp when that is always the same. */
  readonly pattern: string;
  /** The patterns of lines that are stamped otherwise, where there are any. */
  readonly more?: readonly string[];
  /** What the readings of these are ahead of the first pattern's, ms, where one of both clocks states its zone. */
  readonly moreAheadMs?: number;
  /** The zone, where a second clock in the lines tells it. */
  readonly zone?: string;
  /** What counts in it does so from the stamp before. */
  readonly since?: 'previous';
  /** Its date is that of the evening, before noon as well. */
  readonly evening?: true;
  /** Where in the line it stands. */
  readonly at: StampPlace;
  /** Share of the lines that it reads. */
  readonly coverage: number;
  /** Day and month could not be told apart and were taken as day first. */
  readonly dayFirstAssumed: boolean;
  /** Share of the steps from stamp to stamp that go forward. */
  readonly forward: number;
}
