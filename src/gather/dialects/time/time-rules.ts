import type { Pattern } from '../pattern/pattern.js';
import type { StampPattern, StampPlace } from './stamp.js';
import type { Zone } from './zone.js';

/** The source of a line's date when its stamp has none. */
export type DateRule =
  | { readonly from: 'line' }
  | { readonly from: 'session' }
  | { readonly from: 'file'; readonly pattern: StampPattern; readonly evening: boolean }
  | {
      readonly from: 'header';
      readonly when: Pattern;
      readonly pattern: StampPattern;
      readonly evening: boolean;
      /** The year of dates without one: a number, or the one in the file name. */
      readonly year: number | 'file' | undefined;
    };

/** How a dialect describes time. */
export interface TimeRules {
  /** Tried in order. */
  readonly patterns: readonly StampPattern[];
  /** Position of the stamp in the line. */
  readonly at: StampPlace;
  /** `site`: the zone in the rig file. */
  readonly zone: Zone | 'site';
  readonly date: DateRule;
  /** Whether the dates in stamps are those of their evenings: readings before noon belong to the next day. */
  readonly evening: boolean;
  /** Whether relative times count from the base of their section, or from the previous stamped line or record. */
  readonly since: 'base' | 'previous';
  /** How far the clock was ahead of true time, ms; negative if it was behind. */
  readonly aheadMs: number;
  /** Where relative times begin anew, ms; 0: nowhere. */
  readonly wrapsMs: number;
  /** Whether an unstamped line has the time of the last stamped one. */
  readonly carry: boolean;
  /** Patterns of additional times in groups and cells; empty: those of the lines. */
  readonly caught: readonly StampPattern[];
}
