import type { EventName, Warning } from '../../../model/index.js';
import type { Kind, Slot, WhenText } from './kinds/kind.js';
import type { KeyedStates } from './kinds/keyed-states.js';
import type { CsvLayout } from './layout/csv-layout.js';
import type { RecordForm } from '../records/flatten-record.js';
import type { JobsDraft } from './reading/jobs.js';
import type { StampGuess } from './time/guess.js';

/** Where a log without dates has its date from, as far as the draft found out. */
export type DateSource =
  | { readonly from: 'line' | 'session' }
  | { readonly from: 'file'; readonly pattern: string }
  | {
      readonly from: 'header';
      readonly when: string;
      readonly pattern: string;
      readonly line: number;
      readonly evening: boolean;
      /** Of dates without one: as a number, or `file` where it stands in the file's name. */
      readonly year?: number | 'file';
    };

/** `site`, `utc`, or an offset such as `+02:00`. */
export type ZoneDraft = string;

/** A zone that something else than the log tells: frames, daylight at the site, when the file was written. */
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
}

/** What relative times count from: a line, or what the file's name states. */
export type SectionDraft = LineSection | { readonly file: string };

/** An event that a rule makes, and the group or field with its time where that is not the line's. */
export interface DraftEvent {
  readonly event: EventName;
  readonly at?: string;
}

/** That nothing came of a thing, `failed`; or the place that says what did, and the texts there that say so. */
export type Outcome = 'failed' | { readonly place: string; readonly failed: readonly string[] };

/** A rule that the draft proposes. */
export interface DraftRule {
  readonly events: readonly DraftEvent[];
  readonly when: WhenText;
  /** The places in its lines that it catches, and the names of the groups or fields. */
  readonly groups: ReadonlyMap<Slot, string>;
  /** Values of fields that no group of their name catches. */
  readonly fields: Readonly<Record<string, string>>;
  /** What its lines say came of it: nothing, or what the texts of a field or group come to. */
  readonly outcome?: Outcome;
  /** The train that the lines name: a name, or a template. */
  readonly train?: string;
  /** Seconds by which the line comes too late, as a formula; so are the next two. */
  readonly ago?: string;
  readonly lasted?: string;
  readonly lasts?: string;
  readonly count: number;
  readonly firstLine: number;
  readonly examples: readonly string[];
  /** How surely: the evidence, and how far ahead of the next best event it is. */
  readonly score: number;
  readonly margin: number;
  /** The lines themselves. */
  readonly kind: Kind;
  readonly choice: Choice;
}

/** What else might be made of the lines of a kind. */
export interface Choice {
  /** The likeliest events, best first; those that were made of it and are doubted count less. */
  likeliest(doubted: readonly EventName[]): readonly EventName[];
  /** The rule that makes one event of them. @param logged the events that the rest of the draft makes */
  ruleFor(event: EventName, logged: ReadonlySet<EventName>): Omit<DraftRule, 'choice'>;
}

/** A kind of line that the draft makes nothing of, and the events that come nearest. */
export interface UnusedLines {
  readonly template: string;
  readonly when: WhenText;
  readonly count: number;
  readonly firstLine: number;
  readonly examples: readonly string[];
  readonly nearest: readonly EventName[];
  /** What in the night contradicts the first of these, where the draft had a rule for it. */
  readonly doubt?: string;
  /** The lines themselves, for a rule to be made of them. */
  readonly kind: Kind;
  readonly choice: Choice;
}

/** Guiding samples that the draft found. */
export interface GuidingDraft {
  /** `null` in a table: every row that no other rule took. */
  readonly when: WhenText | null;
  readonly ra: string;
  readonly dec: string;
  readonly snr?: string;
  /** Every match in a line is a sample, or a match holds lists of errors. */
  readonly each?: true | 'lists';
  /** Where a record holds them, and when each is: a time of its own, or seconds since an instant of the record. */
  readonly list?: { readonly in: string; readonly time?: string; readonly after?: string; readonly since?: string };
  /** Seconds from sample to sample of a line, and which of them its time is that of. */
  readonly rhythm?: { readonly every: number; readonly timed: 'first' | 'last'; readonly isStated: boolean };
  /** Arcseconds per pixel: picked up from a line, or not found though the errors are pixels. */
  readonly scale: { readonly when: string } | 'missing' | 'none';
}

/**
 * How lines and messages of a text log belong together: each line is one (`null`); lines without a stamp belong to the
 * one above them; each stamp in a line begins a message; or a message goes on until a line that begins like this.
 */
export type EntriesDraft = null | 'stamp' | 'stamps' | { readonly start: string };

/** Guiding samples that are no kind of line: the rule, the pattern of their times, and what these count from. */
export interface BatchedGuiding {
  readonly guiding: GuidingDraft;
  /** The pattern of the times of the samples; `null` where these follow each other steadily. */
  readonly caught: string | null;
  /** Numbers of the lines with samples. */
  readonly lines: ReadonlySet<number>;
  readonly section: LineSection | null;
}

/** One of several tables. */
export interface TableDraft extends CsvLayout {
  readonly name: string;
  /** The line above it, where that alone tells it from another. */
  readonly below: string | null;
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
  /** Lines in the log, and how many of them were looked at. */
  /** Nesting depth of the lists of a JSON document whose objects are lines; 0: lines are lines. */
  readonly objects: number;
  /** Fields with the times of a document's records; `null` where lines are lines. */
  readonly document: readonly string[] | null;
  /** The lines are the rows of tables of an HTML page or of a dump. */
  readonly isRows: boolean;
  readonly totalLines: number;
  readonly linesSeen: number;
  /** Whether it is a text at all. */
  readonly isText: boolean;
  readonly layout: LayoutDraft;
  readonly stamp: StampGuess | null;
  /** What told whether day or month comes first, where the dates alone did not. */
  readonly orderBy: 'night' | 'file-time' | null;
  /** Nothing told it, though the dates can be read either way. */
  readonly orderIsOpen: boolean;
  readonly zone: ZoneDraft;
  /** What told the zone; `null`: the beginning of the log, or nothing. */
  readonly zoneBy: ZoneHint['by'] | null;
  readonly date: DateSource;
  /** The lines with the base of relative times, one a form. */
  readonly sections: readonly SectionDraft[];
  /** Whether times are of the day or count from some instant could not be told. */
  readonly doubtfulTimes: boolean;
  readonly entries: EntriesDraft;
  /** Every line stands in the log twice. */
  readonly doubled: boolean;
  /** Columns or fields that each row states, whatever has changed; empty where a row says what happens. */
  readonly states: readonly string[];
  /** The fields of rows that each name a device and the state that it has come to; `null` where there are none. */
  readonly keyed: KeyedStates | null;
  /** The text messages that name a device and its new state; `null` if there are none. */
  readonly stateLines: string | null;
  /** How messages name jobs by their numbers, `null` where they do not. */
  readonly jobs: JobsDraft | null;
  readonly decimalComma: boolean;
  /** The pattern of times of day inside entries, where rules use them. */
  readonly caught?: readonly string[];
  /** Commonest first within an event; events in the order of their first line. */
  readonly rules: readonly DraftRule[];
  readonly guiding?: GuidingDraft;
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
