import type { EventName, Warning } from '../../../model/index.js';
import type { StampGuess } from './stamp-guess.js';

/** Where a log without dates has its date from, as far as the draft found out. */
export type DateSource =
  | { readonly from: 'line' | 'session' }
  | { readonly from: 'file'; readonly pattern: string }
  | { readonly from: 'header'; readonly when: string; readonly pattern: string; readonly line: number };

/** A rule that the draft proposes. */
export interface DraftRule {
  readonly event: EventName;
  readonly when: string;
  readonly lasted?: string;
  readonly lasts?: string;
  readonly count: number;
  readonly firstLine: number;
  readonly example: string;
}

/** A kind of line that the draft makes nothing of. */
export interface UnusedLines {
  readonly template: string;
  readonly pattern: string;
  readonly count: number;
  readonly firstLine: number;
}

/** What a draft found in a log. */
export interface DraftReport {
  readonly file: string;
  readonly encoding: string;
  readonly lineEnding: string;
  /** Lines in the log, and how many of them were looked at. */
  readonly totalLines: number;
  readonly linesSeen: number;
  readonly stamp: StampGuess | null;
  readonly zone: 'site' | 'utc';
  readonly date: DateSource;
  /** The line with the base of relative times, when the log has such. */
  readonly section?: { readonly begin: string; readonly base: string };
  /** Lines without a stamp belong to the line with a stamp above them. */
  readonly entries: boolean;
  readonly decimalComma: boolean;
  /** Commonest first within an event; events in the order of their first line. */
  readonly rules: readonly DraftRule[];
  /** Commonest first. */
  readonly unused: readonly UnusedLines[];
  readonly warnings: readonly Warning[];
}

/** A starter dialect, and what it rests on. */
export interface Draft {
  /** A commented dialect file that loads as it is. */
  readonly yaml: string;
  readonly report: DraftReport;
}
