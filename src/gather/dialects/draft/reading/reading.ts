import type { FieldLine } from '../kinds/field-line.js';
import type { OtherTime } from '../kinds/parts.js';
import type { Message } from '../kinds/text-kinds.js';
import type { CsvLayout } from '../layout/csv-layout.js';
import type { Layout } from '../layout/layout.js';
import type { EntriesDraft } from '../report.js';
import type { BaseLine, HeadLine } from '../time/base-lines.js';
import type { StampGuess } from '../time/guess.js';

/** The time pattern of a second count in a line, and how far on it is in the log. */
export interface CountReader {
  readonly pattern: string;
  readonly read: OtherTime;
}

/** One of several tables in a log, taken apart. */
export interface TableReading extends CsvLayout {
  readonly name: string;
  /** What stands above its header row. */
  readonly heading: string;
  /** The line above that tells it from another with the same columns; `null` where there is none. */
  readonly below: string | null;
  readonly timePaths: readonly string[];
  readonly timeIsFirst: boolean;
  readonly fieldLines: readonly FieldLine[];
}

/** A log taken apart: its layout and stamps, and its messages or records with rough times. */
export interface Reading {
  readonly layout: Layout;
  readonly stamp: StampGuess | null;
  /** Cells that hold the time; empty where a stamp stands in the line. */
  readonly timePaths: readonly string[];
  /** The first of these cells that a record has is its time; else all of them together are. */
  readonly timeIsFirst?: boolean;
  readonly entries: EntriesDraft;
  readonly messages: readonly Message[];
  readonly fieldLines: readonly FieldLine[];
  /** The lines that hold no stamp, and stand outside entries. */
  readonly unstamped: readonly HeadLine[];
  /** All lines without a stamp, those of entries as well: headings of days stand among them. */
  readonly loose: readonly HeadLine[];
  /** The titles of blocks, where these are records: they may state the day. */
  readonly titles?: readonly HeadLine[];
  /** The lines that state what the times count from, where they do, one a form. */
  readonly bases: readonly BaseLine[];
  /** Times of day and times that count fit equally well. */
  readonly doubtfulTimes: boolean;
  /** The field with a number that records share, of which only the first says what they are about. */
  readonly join: string | null;
  /** The patterns of times that columns hold besides the rows' own, in the form of these. */
  readonly otherPatterns?: readonly string[];
  /** The tables of a log that has several: then the columns above are those of all. */
  readonly tables?: readonly TableReading[];
  /** How the second of two counts in a line is read, where lines have two. */
  readonly counted: CountReader | null;
  /** How the times of a log that counts, and has its stamps in its sentences, are read once more in a line. */
  readonly again?: CountReader;
}
