import type { EndEvent, EventName, FieldName } from '../../model/index.js';
import type { Formula, Lookup } from './formula.js';
import type { RecordForm } from './records/flatten-record.js';
import type { MatchBudget, Pattern } from './pattern/pattern.js';
import type { Template } from './template.js';
import type { StampPattern } from './time/stamp.js';
import type { TimeRules } from './time/time-rules.js';

/** When a rule applies: a pattern on the line, or patterns on a row's cells. */
export type When =
  | { readonly kind: 'text'; readonly pattern: Pattern }
  | { readonly kind: 'cells'; readonly cells: readonly { readonly column: string; readonly pattern: Pattern }[] };

/** One field of an event, computed from the values of the line; `undefined` when they do not yield one. */
export interface FieldRule {
  readonly name: FieldName;
  /** The values it uses; if one of them is missing, so is the field. */
  readonly names: ReadonlySet<string>;
  /** Requested explicitly by the dialect, not filled because a group or cell happens to have its name. */
  readonly isAsked: boolean;
  value(lookup: Lookup): string | number | boolean | undefined;
}

/** A rule that turns lines into events. */
export interface LineRule extends Making {
  readonly when: When;
  /** What else such lines report, each with a train, times and fields of its own. */
  readonly also: readonly Making[];
  /** End events to insert first for spans that are still open. */
  readonly closes: readonly EndEvent[];
  /** 1-based line of the rule in the dialect file. */
  readonly line: number;
}

/** What a rule makes of a line. */
export interface Making {
  readonly events: readonly EventName[];
  readonly fields: readonly FieldRule[];
  readonly train: Template | null;
  /** Seconds since it happened. */
  readonly ago: Formula | null;
  /** Seconds since the thing that ends here began. */
  readonly lasted: Formula | null;
  /** Seconds until the thing that begins here ends. */
  readonly lasts: Formula | null;
  /** Events with a time of their own, and the group or cell that holds it. */
  readonly at: ReadonlyMap<EventName, string>;
}

/** A rule that turns lines into guiding samples: right ascension and declination in arcseconds. */
export interface GuidingRule {
  readonly when: When | null;
  /** Columns that a row needs for its errors; not every one of several tables has them. */
  readonly columns: readonly string[];
  /** Every match in a line is a sample, or a match holds lists of errors. */
  readonly each: boolean | 'lists';
  /** Where a record holds many samples; `null` where a line or row is one, or where `each` applies. */
  readonly list: SampleListRule | null;
  /** Seconds between the samples of a line; `null` where samples have their own times. */
  readonly every: number | null;
  /** Index of the sample that the line's time belongs to. */
  readonly timed: 'first' | 'last';
  readonly ra: Formula;
  readonly dec: Formula;
  readonly snr: Formula | null;
}

/** The samples that a record holds as a list or as columns. */
export interface SampleListRule {
  readonly path: string;
  /** The column with a sample's own time. */
  readonly time: string | null;
  /** Seconds from a reference instant of the record to a sample. */
  readonly after: Formula | null;
  /** The field with that reference instant; `null`: the record's own time. */
  readonly since: string | null;
}

/** A value that is constant, or is picked up from lines that match a pattern. */
export interface ConstantRule {
  readonly name: string;
  readonly initial: string | number | undefined;
  readonly when: Pattern | null;
}

/** What relative times count from: the line that begins a section and the one that ends it. */
export interface SectionRule {
  readonly begin: Pattern;
  readonly base: StampPattern | null;
  readonly end: Pattern | null;
  /** The line's own count corresponds to the instant that it states. */
  readonly sync: boolean;
  /** The instant is that of the lines above as well, up to the first such line. */
  readonly isAbove: boolean;
}

/** Messages that refer to a job by number: the one that begins it and describes it, and the later ones. */
export interface JobRules {
  readonly begin: Pattern;
  readonly later: Pattern;
}

/** How the rows of a CSV log, or of one of its tables, are split and named. */
export interface CsvRules {
  /** The name by which rules refer to it in `table`, where a log has several. */
  readonly name: string;
  /** The line above it; `null` where its header row alone identifies it. */
  readonly below: Pattern | null;
  /** What its rows match, where rows of several types take turns; `null` where a table is a run of rows. */
  readonly rows: Pattern | null;
  readonly delimiter: string;
  readonly quote: string;
  /** Names that identify the header row; `null` when the columns are named by `columns`. */
  readonly header: readonly string[] | null;
  readonly columns: readonly string[] | null;
  /** Start positions of fixed-width columns, characters from 0; `null` where a delimiter separates cells. */
  readonly starts: readonly number[] | null;
  /** Columns of which each filled cell is a row of its own; none: a row is one. */
  readonly each: readonly string[];
  /** What stands between several messages in such a cell; `null`: a cell is one. */
  readonly between: string | null;
  /** Columns that make up the time, joined by a blank. */
  readonly time: readonly string[];
  /** The time is the first of these columns that is filled; otherwise all of them together. */
  readonly timeIsFirst: boolean;
}

/** The record layout of a log, and the fields that make up the time (none: a stamp precedes the record). */
export interface RecordRules {
  readonly form: RecordForm;
  readonly time: readonly string[];
  /** The time is the first of these fields that is present; otherwise all of them together. */
  readonly timeIsFirst: boolean;
  /** The field with the number that links a record to the one that describes it. */
  readonly join: string | null;
}

/**
 * Columns that every row fills whether or not they changed; or the column that names a device and the one with its
 * state.
 */
export type StateRules = { readonly columns: readonly string[] } | { readonly of: string; readonly state: string };

/** A dialect ready for use. Make one with `loadDialect`. */
export interface CompiledDialect {
  readonly name: string;
  readonly file: string;
  readonly encoding: string;
  readonly decimalComma: boolean;
  /** Every line appears twice in the log: the second of two identical consecutive lines is dropped. */
  readonly doubled: boolean;
  /** The remaining time budget of its patterns. */
  readonly budget: MatchBudget;
  readonly time: TimeRules;
  /**
   * The same dialect with day and month swapped, where the session's night decides which is right; `null` where dates
   * are unambiguous.
   */
  readonly other: CompiledDialect | null;
  /**
   * What begins a multi-line entry or, as `stamps`, each message of a line that holds several; `null` when each line is
   * an entry.
   */
  readonly entryStart: 'stamp' | 'stamps' | Pattern | null;
  /** Nesting depth of the lists of a JSON document whose objects are lines; 0: lines are lines. */
  readonly objects: number;
  /** The log is an XML or JSON document: its elements or objects with one of these fields are treated as lines. */
  readonly document: ReadonlySet<string> | null;
  /** The log is an HTML page or a database dump: its table rows are treated as lines. */
  readonly isRows: boolean;
  /** The log is a sheet kept by hand, whose tables become plain ones first: a row is a line each. */
  readonly isSheet: boolean;
  readonly jobs: JobRules | null;
  /** One table, or several in sequence. */
  readonly csv: readonly CsvRules[] | null;
  readonly records: RecordRules | null;
  /** What rows state, where only changes matter; `null` where each row says what happens. */
  readonly states: StateRules | null;
  /** Messages that name a device and its new state in groups; `null` where there are none. */
  readonly stateLines: Pattern | null;
  /** The train of the whole log: by name, or by a pattern on the file's name. */
  readonly train: string | Pattern | null;
  /** Names in the log → ids in the rig file. */
  readonly trains: ReadonlyMap<string, string>;
  readonly constants: readonly ConstantRule[];
  readonly sections: readonly SectionRule[];
  /** The pattern of the instant in the file's name that relative times initially count from. */
  readonly baseInName: StampPattern | null;
  /** The fixed instant that they count from, UTC ms; NaN if there is none. */
  readonly fixedBaseMs: number;
  readonly lines: readonly LineRule[];
  readonly ignore: readonly { readonly when: When; readonly line: number }[];
  readonly guiding: GuidingRule | null;
}
