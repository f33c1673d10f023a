import type { Pattern } from '../pattern/pattern.js';
import type { StampPattern, StampPlace } from './stamp.js';
import type { Zone } from './zone.js';

/** Where the date of a line comes from when its stamp has none. */
export type DateRule =
  | { readonly from: 'line' }
  | { readonly from: 'session' }
  | { readonly from: 'file'; readonly pattern: StampPattern; readonly evening: boolean }
  | {
      readonly from: 'header';
      readonly when: Pattern;
      readonly pattern: StampPattern;
      readonly evening: boolean;
      /** The year of dates that are stated without one: a number, or the one in the file's name. */
      readonly year: number | 'file' | undefined;
    };

/** How a dialect tells time. */
export interface TimeRules {
  /** Tried in order. */
  readonly patterns: readonly StampPattern[];
  /** Where in the line the stamp stands. */
  readonly at: StampPlace;
  /** `site`: whatever zone the rig file gives. */
  readonly zone: Zone | 'site';
  readonly date: DateRule;
  /** Whether the dates in stamps are those of their evenings: readings before noon belong to the next day. */
  readonly evening: boolean;
  /** Whether relative times count from the base of their section, or from the stamped line, or record, before. */
  readonly since: 'base' | 'previous';
  /** Whether a line without a stamp has the time of the last line with one. */
  readonly carry: boolean;
  /** Patterns of times that groups and cells hold besides the line's own; empty: those of the lines. */
  readonly caught: readonly StampPattern[];
}
