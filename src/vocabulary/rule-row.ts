import type { EvidenceKind } from './evidence.js';

/** A rule of verdict: a number that the rig file may set. */
export interface RuleRow {
  /** The rig file's key for it, under `rules`. */
  readonly key: string;
  readonly default: number;
  readonly low: number;
  readonly high: number;
  /** What the number is, for messages. */
  readonly what: string;
  /** How the page formats a value. */
  readonly unit: 's' | 'px' | '×' | '%' | '';
  readonly decimals: number;
  /** The evidence it judges: a report prints the rules of the evidence it had. */
  readonly of: EvidenceKind;
  /** Completes "rule: …" on the page. */
  readonly meaning: string;
  /** A few words for the starter file. */
  readonly brief: string;
}
