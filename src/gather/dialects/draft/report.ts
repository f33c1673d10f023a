import type { EventName, FieldName, Warning } from '../../../model/index.js';
import type { Kind, Slot, WhenText } from './kinds/kind.js';
import type { KeyedStates } from './kinds/keyed-states.js';
import type { CsvLayout } from './layout/csv-layout.js';
import type { RecordForm } from '../records/flatten-record.js';
import type { JobsDraft } from './reading/jobs.js';
import type { StampGuess } from './time/guess.js';

/** Where the date of an undated log comes from, as far as the draft found out. */
export type DateSource =
  | { readonly from: 'line' | 'session' }
  | { readonly from: 'file'; readonly pattern: string }
  | {
      readonly from: 'header';
      readonly when: string;
      readonly pattern: string;
      readonly line: number;
      readonly evening: boolean;
      /** The year of dates without one: a number, or `file` if it is in the file name. */
      readonly year?: number | 'file';
    };

/** `site`, `utc`, or an offset such as `+02:00`. */
export type ZoneDraft = string;

/** A zone inferred from evidence outside the log: frames, daylight at the site, or the file's modification time. */
export interface ZoneHint {
  readonly name: ZoneDraft;
  readonly by: 'frames' | 'darkness' | 'file-time';
}

/** The line with the base of relative times. */
export interface LineSection {
  readonly begin: string;
  readonly base: string;
  /** The line's own count corresponds to the instant that it states. */
  readonly sync?: true;
  /** It is that of the lines above as well. */
  readonly above?: true;
}

/** What relative times count from, as a line or the file's name states it. */
export type BaseSection = LineSection | { readonly file: string };

/** The same, or a fixed instant (ISO 8601). */
export type SectionDraft = BaseSection | { readonly from: string };

/** An event that a rule makes, and the group or field with its time if it is not the line's. */
export interface DraftEvent {
  readonly event: EventName;
  readonly at?: string;
  /** Its train, where the rule's lines report on several. */
  readonly train?: string;
}

/** A failed outcome; or the field that states the outcome, and its texts that mean failure. */
export type Outcome = 'failed' | { readonly place: string; readonly failed: readonly string[] };

/** A rule that the draft proposes. */
export interface DraftRule {
  readonly events: readonly DraftEvent[];
  readonly when: WhenText;
  /** The slots it captures, and the names of the groups or fields. */
  readonly groups: ReadonlyMap<Slot, string>;
  /** Field values that no group of their name captures. */
  readonly fields: Readonly<Record<string, string>>;
  /** The outcome in its lines: failure, or the meaning of the texts of a field or group. */
  readonly outcome?: Outcome;
  /** The field that holds a filter of which lines state the slot, the group or field with it, and the filters. */
  readonly slots?: {
    readonly field: FieldName;
    readonly place: string;
    readonly names: Readonly<Record<string, string>>;
  };
  /** The train that the lines name: a name, or a template. */
  readonly train?: string;
  /** Seconds by which the line is late, as a formula; so are the next two. */
  readonly ago?: string;
  readonly lasted?: string;
  readonly lasts?: string;
  readonly count: number;
  readonly firstLine: number;
  readonly examples: readonly string[];
  /** Certainty: the evidence, and the lead over the next best event. */
  readonly score: number;
  readonly margin: number;
  /** The lines themselves. */
  readonly kind: Kind;
  readonly choice: Choice;
}

/** The alternatives for the lines of a kind. */
export interface Choice {
  /** The likeliest events, best first; withdrawn ones count less. */
  likeliest(doubted: readonly EventName[]): readonly EventName[];
  /** The rule that makes one event of them. @param logged the events that the rest of the draft makes */
  ruleFor(event: EventName, logged: ReadonlySet<EventName>): Omit<DraftRule, 'choice'>;
}

/** An unclassified kind of line, with its likeliest events. */
export interface UnusedLines {
  readonly template: string;
  readonly when: WhenText;
  readonly count: number;
  readonly firstLine: number;
  readonly examples: readonly string[];
  readonly nearest: readonly EventName[];
  /** What contradicts the first of these, if the draft had a rule for it. */
  readonly doubt?: string;
  /** The lines themselves, for making a rule of them. */
  readonly kind: Kind;
  readonly choice: Choice;
}

/** Guiding samples found by the draft. */
export interface GuidingDraft {
  /** `null` in a table: every row that no other rule matched. */
  readonly when: WhenText | null;
  readonly ra: string;
  readonly dec: string;
  readonly snr?: string;
  /** Every match in a line is a sample, or a match holds lists of errors. */
  readonly each?: true | 'lists';
  /** Where a record holds them, and their times: their own, or seconds since an instant of the record. */
  readonly list?: { readonly in: string; readonly time?: string; readonly after?: string; readonly since?: string };
  /** Seconds between the samples of a line, and which of them the line's time belongs to. */
  readonly rhythm?: { readonly every: number; readonly timed: 'first' | 'last'; readonly isStated: boolean };
  /** Arcseconds per pixel: picked up from a line, or unknown although the errors are in pixels. */
  readonly scale: { readonly when: string } | 'missing' | 'none';
}

/**
 * How lines of a text log form messages: each line is one (`null`); unstamped lines belong to the line above; each
 * stamp in a line begins a message; or a message continues until a line with this beginning.
 */
export type EntriesDraft = null | 'stamp' | 'stamps' | { readonly start: string };

/** Guiding samples without a line kind: the rule, the pattern of their times, and the base of these. */
export interface BatchedGuiding {
  readonly guiding: GuidingDraft;
  /** The pattern of the samples' times; `null` if they are equally spaced. */
  readonly caught: string | null;
  /** Numbers of the lines with samples. */
  readonly lines: ReadonlySet<number>;
  readonly section: LineSection | null;
}

/** One of several tables. */
export interface TableDraft extends CsvLayout {
  readonly name: string;
  /** The line above it, if only that distinguishes it from another. */
  readonly below: string | null;
  /** What its rows match, where rows of several types take turns. */
  readonly only?: string;
  readonly time: readonly string[];
  readonly timeIsFirst: boolean;
}

/** How the rows or records of a log are read, `null` for plain text. */
export type LayoutDraft =
  | { readonly kind: 'tables'; readonly tables: readonly TableDraft[] }
  | (CsvLayout & { readonly kind: 'csv'; readonly time: readonly string[]; readonly timeIsFirst: boolean })
  | {
      readonly kind: 'records';
      readonly form: RecordForm;
      readonly start: string | 'stamp' | null;
      readonly time: readonly string[];
      readonly timeIsFirst: boolean;
      readonly join: string | null;
    }
  | null;

/** What a draft found in a log. */
export interface DraftReport {
  readonly file: string;
  readonly encoding: string;
  readonly lineEnding: string;
  /** Number of lines in the log, and how many of them were examined. */
  /** Nesting depth of the lists of a JSON document whose objects are lines; 0: lines are lines. */
  readonly objects: number;
  /** Time fields of a document's records; `null` if lines are lines. */
  readonly document: readonly string[] | null;
  /** The lines are table rows of an HTML page or of a database dump. */
  readonly isRows: boolean;
  /** The lines are those of plain tables that a sheet kept by hand was turned into. */
  readonly isSheet: boolean;
  readonly totalLines: number;
  readonly linesSeen: number;
  /** Whether it is text at all. */
  readonly isText: boolean;
  readonly layout: LayoutDraft;
  readonly stamp: StampGuess | null;
  /** What determined whether day or month comes first, if not the dates alone. */
  readonly orderBy: 'night' | 'file-time' | null;
  /** Undetermined, although the dates can be read either way. */
  readonly orderIsOpen: boolean;
  readonly zone: ZoneDraft;
  /** How far the clock was ahead of true time, s; absent: the log does not say that it was wrong. */
  readonly ahead?: number;
  /** The frames of the session gave `ahead`, or the instant that its counts are relative to; absent: the log did. */
  readonly clockBy?: 'frames';
  /** What determined the zone; `null`: the beginning of the log, or nothing. */
  readonly zoneBy: ZoneHint['by'] | null;
  readonly date: DateSource;
  /** The lines with the base of relative times, one per form. */
  readonly sections: readonly SectionDraft[];
  /** Whether times are times of day or relative to some instant is undetermined. */
  readonly doubtfulTimes: boolean;
  readonly entries: EntriesDraft;
  /** Every line appears twice in the log. */
  readonly doubled: boolean;
  /** Columns or fields that each row states, changed or not; empty if a row says what happens. */
  readonly states: readonly string[];
  /** The fields of rows that each name a device and its new state; `null` if there are none. */
  readonly keyed: KeyedStates | null;
  /** The text messages that name a device and its new state; `null` if there are none. */
  readonly stateLines: string | null;
  /** How messages refer to jobs by number, `null` if they do not. */
  readonly jobs: JobsDraft | null;
  readonly decimalComma: boolean;
  /** Ids of trains, by the names that rules give. */
  readonly trains: Readonly<Record<string, string>>;
  /** The pattern of times of day inside entries, if rules use them. */
  readonly caught?: readonly string[];
  /** Most common first within an event; events in the order of their first line. */
  readonly rules: readonly DraftRule[];
  readonly guiding?: GuidingDraft;
  /** Parts that the dialect could not have, and why. */
  readonly leftOut?: readonly { readonly what: string; readonly why: string }[];
  /** The frames of the session prove its clock: so many of the exposures that could begin when one does do so. */
  readonly provedBy?: { readonly pairs: number; readonly possible: number };
  /** What shows that its clock is not understood, so that the draft leaves its times out; absent: nothing does. */
  readonly clockDoubts?: readonly string[];
  /** What shows that it is probably wrong as a whole; absent: nothing does. */
  readonly signsOfWrong?: readonly string[];
  /** Most common first. */
  readonly unused: readonly UnusedLines[];
  readonly warnings: readonly Warning[];
}

/** A starter dialect, and the evidence for it. */
export interface Draft {
  /** A commented dialect file that loads as it is. */
  readonly yaml: string;
  readonly report: DraftReport;
}
