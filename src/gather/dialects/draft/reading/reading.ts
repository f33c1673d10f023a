import type { FieldLine } from '../kinds/field-line.js';
import type { OtherTime } from '../kinds/parts.js';
import type { Message } from '../kinds/text-kinds.js';
import type { CsvLayout } from '../layout/csv-layout.js';
import type { Layout } from '../layout/layout.js';
import type { EntriesDraft } from '../report.js';
import type { BaseLine, HeadLine } from '../time/base-lines.js';
import type { StampGuess } from '../time/guess.js';

/** The time pattern of a second counter in a line, and the elapsed time at that point. */
export interface CountReader {
  readonly pattern: string;
  readonly read: OtherTime;
}

/** One of several tables in a log, parsed. */
export interface TableReading extends CsvLayout {
  readonly name: string;
  /** The text above its header row. */
  readonly heading: string;
  /** The line above that distinguishes it from another with the same columns; `null` if there is none. */
  readonly below: string | null;
  /** What its rows match, where rows of several types take turns. */
  readonly only?: string;
  readonly timePaths: readonly string[];
  readonly timeIsFirst: boolean;
  readonly fieldLines: readonly FieldLine[];
}

/** A parsed log: its layout and stamps, and its messages or records with rough times. */
export interface Reading {
  readonly layout: Layout;
  readonly stamp: StampGuess | null;
  /** Cells that hold the time; empty if a stamp is in the line. */
  readonly timePaths: readonly string[];
  /** The time is the first of these cells that is present; otherwise all of them together. */
  readonly timeIsFirst?: boolean;
  readonly entries: EntriesDraft;
  /** Its entries are cards: the first time below a title is that of the card. */
  readonly isInCards?: true;
  readonly messages: readonly Message[];
  readonly fieldLines: readonly FieldLine[];
  /** The unstamped lines outside entries. */
  readonly unstamped: readonly HeadLine[];
  /** All unstamped lines, including those of entries: date headings may be among them. */
  readonly loose: readonly HeadLine[];
  /** The titles of blocks, if these are records: they may state the date. */
  readonly titles?: readonly HeadLine[];
  /** The lines that state the base of times, if any, one per form. */
  readonly bases: readonly BaseLine[];
  /** Times of day and counters fit equally well. */
  readonly doubtfulTimes: boolean;
  /** Points between groups of digits were left out of its cells; decimal marks are commas. */
  readonly hasThousands?: true;
  /** The field with a number shared by records, of which only the first names the subject. */
  readonly join: string | null;
  /** The patterns of further times in columns, in the form of the rows' own. */
  readonly otherPatterns?: readonly string[];
  /** The tables of a log that has several: then the columns above are those of all. */
  readonly tables?: readonly TableReading[];
  /** The lines that name the fields of a type of row: they explain no codes. */
  readonly naming?: ReadonlySet<string>;
  /** How the second of two counters in a line is read, if lines have two. */
  readonly counted: CountReader | null;
  /** How times inside sentences are read again in a log whose stamps are counters. */
  readonly again?: CountReader;
}
