import type { ValueType } from './values.js';

/** A pattern on the line's text, or patterns on cells. */
export type WhenText = string | Readonly<Record<string, string>>;

/** A position in the lines of a kind whose value varies, or may vary, from line to line. */
export interface Slot {
  /** Its name in a dialect: the path or column, or `null` if a pattern must capture it in a group. */
  readonly path: string | null;
  /** It is at the front of a field with more content: as good as a separate field. */
  readonly isFront?: boolean;
  /** It is in the message that introduced the line's job, before anything else the line says. */
  readonly isEarlier?: boolean;
  /** Words before it, nearest first; for a field the words of its path, last first. */
  readonly before: readonly string[];
  /** The word, unit or mark directly after it. */
  readonly after: string;
  readonly type: ValueType;
  /** Its values are durations with their units, whether or not all of them have several: `14 s`, `2 min 41 s`. */
  readonly isSpelt?: true;
  /** A sample of its distinct values. */
  readonly values: readonly string[];
  /** Its value on each of the kind's occurrences, in order. */
  readonly perLine: readonly (string | undefined)[];
  /** The same as times in ms, if in the format of the rows' own; NaN for occurrences without one. */
  readonly timesMs?: readonly number[];
}

/** Where the rows of an exposure table state each begin and length. */
export interface ExposureColumns {
  /** Which end the rows' own times are, and whether this is explicit. */
  readonly side: 'begin' | 'end';
  readonly isSure: boolean;
  /** The rows' own times are those of the middle: the beginning is half the length before. */
  readonly isMid?: boolean;
  /** The train that took them, if there are several. */
  readonly train: string | null;
  /** They were aborted. */
  readonly isCut: boolean;
  /** Actual and planned length. */
  readonly length: Slot | null;
  readonly asked: Slot | null;
  /** The other end. */
  readonly other: Slot | null;
}

/** A part of a message behind a mark, in words: it may give a reason. */
export interface Segment {
  readonly slot: Slot;
  /** What the message says before it. */
  readonly said: string;
  /** A colon or brackets set it apart, not a comma or dash. */
  readonly isClear: boolean;
  /** Slots for parts of it. */
  readonly within: readonly Slot[];
}

/** Lines that are identical except for their values, in any log layout. */
export interface Kind {
  readonly count: number;
  readonly firstLine: number;
  readonly examples: readonly string[];
  /** The kind in words, without values. */
  readonly summary: string;
  /** The text for the lexicon, including leading marks. */
  readonly wording: string;
  /** Length of the front of the wording that names the device or program component that wrote the lines. */
  readonly lead: number;
  /** Field names: they hint at the subject, never at what happens to it. */
  readonly hints: string;
  /** The name of the time field, if all of its lines use the same. */
  readonly timeName?: string;
  /** The column with the times of day, if all of its rows use the same. */
  readonly timeColumn?: string;
  /** The name of the value that all of its rows state, in a long table of names and values. */
  readonly valueName?: string;
  /** The log marks its lines as debug output. */
  readonly isDetail?: boolean;
  /** It introduces a numbered job, reports its result, its end, or its abort. */
  readonly ofJob?: { readonly part: 'begun' | 'later' | 'over' | 'cut'; readonly about?: string };
  readonly slots: readonly Slot[];
  /** Parts of a message behind marks, whether or not they vary. */
  readonly segments?: readonly Segment[];
  /** Each cell of a row is a message of its own: others may have the same line and time. */
  readonly isCell?: true;
  /** Each of its rows is an exposure. */
  readonly exposure?: ExposureColumns;
  /** Line numbers and times in ms (NaN without one), as far as retained. */
  readonly lines: readonly number[];
  readonly atMs: readonly number[];
  /** The pattern of a rule, with groups of these names for these slots. */
  when(groups: ReadonlyMap<Slot, string>): WhenText;
}

/** Sort order of kinds of line: most common first, ties in order of appearance. */
export function commonestFirst(a: Pick<Kind, 'count' | 'firstLine'>, b: Pick<Kind, 'count' | 'firstLine'>): number {
  return b.count - a.count || a.firstLine - b.firstLine;
}
