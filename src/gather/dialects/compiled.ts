import type { EndEvent, EventName, FieldName } from '../../model/index.js';
import type { Formula, Lookup } from './formula.js';
import type { RecordForm } from './records/flatten-record.js';
import type { MatchBudget, Pattern } from './pattern/pattern.js';
import type { Template } from './template.js';
import type { StampPattern } from './time/stamp.js';
import type { TimeRules } from './time/time-rules.js';

/** When a rule applies: a pattern on the line, or patterns on the cells of a row. */
export type When =
  | { readonly kind: 'text'; readonly pattern: Pattern }
  | { readonly kind: 'cells'; readonly cells: readonly { readonly column: string; readonly pattern: Pattern }[] };

/** One field of an event: from the values of the line, `undefined` when they give none. */
export interface FieldRule {
  readonly name: FieldName;
  /** The values it uses; when one of them is missing, so is the field. */
  readonly names: ReadonlySet<string>;
  /** The dialect asks for it, rather than that a group or cell has its name by chance. */
  readonly isAsked: boolean;
  value(lookup: Lookup): string | number | boolean | undefined;
}

/** A rule that turns lines into events. */
export interface LineRule extends Making {
  readonly when: When;
  /** What else such lines report, each with a train, times and fields of its own. */
  readonly also: readonly Making[];
  /** Ends to add before, for what is still open. */
  readonly closes: readonly EndEvent[];
  /** Where the rule stands in the dialect file, 1-based line. */
  readonly line: number;
}

/** What a rule makes of a line. */
export interface Making {
  readonly events: readonly EventName[];
  readonly fields: readonly FieldRule[];
  readonly train: Template | null;
  /** Seconds since it happened. */
  readonly ago: Formula | null;
  /** Seconds since what ends here began. */
  readonly lasted: Formula | null;
  /** Seconds until what begins here ends. */
  readonly lasts: Formula | null;
  /** Events that happen at a time of their own, and the group or cell that holds it. */
  readonly at: ReadonlyMap<EventName, string>;
}

/** A rule that turns lines into guiding samples: right ascension and declination in arcseconds. */
export interface GuidingRule {
  readonly when: When | null;
  /** Columns that a row needs for its errors; of several tables not all have them. */
  readonly columns: readonly string[];
  /** Every match in a line is a sample, or a match holds lists of errors. */
  readonly each: boolean | 'lists';
  /** Where a record holds many samples; `null` where a line or row is one, or `each` tells. */
  readonly list: SampleListRule | null;
  /** Seconds from sample to sample of a line; `null` where they have times of their own. */
  readonly every: number | null;
  /** Which of its samples a line's time is that of. */
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
  /** Seconds from an instant of the record to a sample. */
  readonly after: Formula | null;
  /** The field with that instant; `null`: the record's own time. */
  readonly since: string | null;
}

/** A value that stands fast, or is picked up from lines that a pattern matches. */
export interface ConstantRule {
  readonly name: string;
  readonly initial: string | number | undefined;
  readonly when: Pattern | null;
}

/** What relative times count from: the line that begins a section, and the one that ends it. */
export interface SectionRule {
  readonly begin: Pattern;
  readonly base: StampPattern | null;
  readonly end: Pattern | null;
  /** The line's own count is that of the instant that it states. */
  readonly sync: boolean;
}

/** Messages that name a job by its number: the one that begins it and says what it is about, and those after it. */
export interface JobRules {
  readonly begin: Pattern;
  readonly later: Pattern;
}

/** How the rows of a CSV log, or of one of its tables, are divided and named. */
export interface CsvRules {
  /** What rules call it by `table`, where a log has several. */
  readonly name: string;
  /** The line that it stands below; `null` where its header row alone tells it. */
  readonly below: Pattern | null;
  readonly delimiter: string;
  readonly quote: string;
  /** Names that tell the header row; `null` when the columns are named by `columns`. */
  readonly header: readonly string[] | null;
  readonly columns: readonly string[] | null;
  /** Where the columns begin that stand at fixed places, characters from 0; `null` where a delimiter divides rows. */
  readonly starts: readonly number[] | null;
  /** Columns that make up the time, joined by a blank. */
  readonly time: readonly string[];
  /** The first of these columns that a row fills is its time; else all of them together are. */
  readonly timeIsFirst: boolean;
}

/** How the records of a log are written, and which fields make up the time (none: a stamp stands before the record). */
export interface RecordRules {
  readonly form: RecordForm;
  readonly time: readonly string[];
  /** The first of these fields that a record has is its time; else all of them together are. */
  readonly timeIsFirst: boolean;
  /** The field with the number that a record shares with the one that says what it is about. */
  readonly join: string | null;
}

/** Columns that each row fills, whatever has changed; or the one that names a device, and the one with its state. */
export type StateRules = { readonly columns: readonly string[] } | { readonly of: string; readonly state: string };

/** A dialect ready for use. Make one with `loadDialect`. */
export interface CompiledDialect {
  readonly name: string;
  readonly file: string;
  readonly encoding: string;
  readonly decimalComma: boolean;
  /** Every line stands in the log twice: of two that are the same, one after the other, the second is left out. */
  readonly doubled: boolean;
  /** What is left of the time that its patterns may take. */
  readonly budget: MatchBudget;
  readonly time: TimeRules;
  /**
   * The same dialect with day and month the other way round, where the night of the session tells which is right;
   * `null` where dates are as they are written.
   */
  readonly other: CompiledDialect | null;
  /**
   * What begins an entry of several lines, or, as `stamps`, each message of a line with several; `null` when each line
   * stands alone.
   */
  readonly entryStart: 'stamp' | 'stamps' | Pattern | null;
  /** In how many lists of a JSON document the objects stand that are a line each; 0: lines are lines. */
  readonly objects: number;
  /** The log is a document, XML or JSON: its elements or objects with one of these fields are a line each. */
  readonly document: ReadonlySet<string> | null;
  /** The log is an HTML page or a dump of a database: the rows of its tables are a line each. */
  readonly isRows: boolean;
  readonly jobs: JobRules | null;
  /** One table, or several, one below the other. */
  readonly csv: readonly CsvRules[] | null;
  readonly records: RecordRules | null;
  /** What rows state, where only what has changed tells something; `null` where a row says what happens. */
  readonly states: StateRules | null;
  /** Messages that name a device and the state that it has come to, in groups; `null` where there are none. */
  readonly stateLines: Pattern | null;
  /** The train of the whole log: by name, or by a pattern on the file's name. */
  readonly train: string | Pattern | null;
  /** Names in the log → ids in the rig file. */
  readonly trains: ReadonlyMap<string, string>;
  readonly constants: readonly ConstantRule[];
  readonly sections: readonly SectionRule[];
  /** The pattern of the instant in the file's name that relative times count from at first. */
  readonly baseInName: StampPattern | null;
  readonly lines: readonly LineRule[];
  readonly ignore: readonly { readonly when: When; readonly line: number }[];
  readonly guiding: GuidingRule | null;
}
