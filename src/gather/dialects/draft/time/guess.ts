import type { StampPlace } from '../../time/stamp.js';

/** The stamps of a log's lines. */
export interface StampGuess {
  /** A time pattern of a dialect, with the text before the stamp if constant. */
  readonly pattern: string;
  /** Patterns of lines with other stamps, if any. */
  readonly more?: readonly string[];
  /** Offset of these readings from the first pattern's, ms, if one of the clocks states its zone. */
  readonly moreAheadMs?: number;
  /** Where some stamps have a year and others none: an instant near which these are, ms. */
  readonly nearMs?: number;
  /** The zone, if a second clock in the lines determines it. */
  readonly zone?: string;
  /** The fixed instant that its counts are relative to, ISO 8601. */
  readonly from?: string;
  /** Its counter begins anew after so many seconds. */
  readonly wraps?: number;
  /** Counts are relative to the previous stamp. */
  readonly since?: 'previous';
  /** Rows without a time have that of the row above. */
  readonly carry?: true;
  /** Its date is that of the evening, also for times before noon. */
  readonly evening?: true;
  /** Chosen among clocks that differ: another reading of the lines would take the wrong one. */
  readonly isTrusted?: true;
  /** Position in the line. */
  readonly at: StampPlace;
  /** Fraction of the lines that it reads. */
  readonly coverage: number;
  /** The order of day and month is undetermined and was taken as day first. */
  readonly dayFirstAssumed: boolean;
  /** Fraction of the steps from stamp to stamp that go forward. */
  readonly forward: number;
}

/** The cells with a row's time, and how they are combined. */
export interface TimeCells {
  readonly paths: readonly string[];
  /** The time is the first of them that is present; otherwise all of them together. */
  readonly isFirst: boolean;
  readonly stamp: StampGuess;
  /** Columns with the same instants on a clock that is wrong: they say nothing. */
  readonly without?: readonly string[];
}

/** Whether stamps hold the day, or count from a fixed instant. */
export function hasDay(stamp: StampGuess | null): boolean {
  return /\{(?:day|week-date|serial-day|epoch|julian|mjd)/.test(stamp?.pattern ?? '');
}
