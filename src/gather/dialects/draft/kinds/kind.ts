import type { ValueType } from './values.js';

/** A pattern on the line's text, or patterns on cells. */
export type WhenText = string | Readonly<Record<string, string>>;

/** A place in the lines of a kind whose value differs from line to line, or may do so. */
export interface Slot {
  /** What a dialect calls it: the path or column, or `null` where the pattern must catch it in a group. */
  readonly path: string | null;
  /** It stands at the front of a field that holds more: as good as a field of its own. */
  readonly isFront?: boolean;
  /** It stands in what brought the line's job up, which came before all else that the line says. */
  readonly isEarlier?: boolean;
  /** Words in front of it, nearest first; for a field the words of its path, last first. */
  readonly before: readonly string[];
  /** The word, unit or mark right after it. */
  readonly after: string;
  readonly type: ValueType;
  /** Some of its values, distinct. */
  readonly values: readonly string[];
  /** Its value on each of the kind's occurrences, in their order. */
  readonly perLine: readonly (string | undefined)[];
  /** The same as times in ms, where it is one in the form of the rows' own; NaN where an occurrence has none. */
  readonly timesMs?: readonly number[];
}

/** Where the rows of a table of exposures say when each was, and how long. */
export interface ExposureColumns {
  /** Which end the rows' own times are of, and whether something tells that. */
  readonly side: 'begin' | 'end';
  readonly isSure: boolean;
  /** The train that took them, where several did. */
  readonly train: string | null;
  /** They were cut short. */
  readonly isCut: boolean;
  /** How long each was, and how long it was to be. */
  readonly length: Slot | null;
  readonly asked: Slot | null;
  /** The other end. */
  readonly other: Slot | null;
}

/** Lines that are alike but for their values, whatever the layout of the log. */
export interface Kind {
  readonly count: number;
  readonly firstLine: number;
  readonly examples: readonly string[];
  /** The kind in words, values left out. */
  readonly summary: string;
  /** What the lexicon reads, with the marks in front. */
  readonly wording: string;
  /** How much of the wording, from its front, names the device or the part of the program that wrote the lines. */
  readonly lead: number;
  /** Names of fields: they hint at the subject, never at what becomes of it. */
  readonly hints: string;
  /** What all of its lines call the field with their time, where they call it one name. */
  readonly timeName?: string;
  /** The log marks its lines as details for whoever looks for faults. */
  readonly isDetail?: boolean;
  /** It brings a numbered job up, tells what came of one, that it is over, or that it was cut short. */
  readonly ofJob?: { readonly part: 'begun' | 'later' | 'over' | 'cut'; readonly about?: string };
  readonly slots: readonly Slot[];
  /** Each of its rows is an exposure. */
  readonly exposure?: ExposureColumns;
  /** Numbers of the lines, and their times in ms (NaN without one), as many as were kept. */
  readonly lines: readonly number[];
  readonly atMs: readonly number[];
  /** The pattern of a rule, with groups of these names for these slots. */
  when(groups: ReadonlyMap<Slot, string>): WhenText;
}

/** The order of kinds of lines: commonest first, and of several as common the one that comes first. */
export function commonestFirst(a: Pick<Kind, 'count' | 'firstLine'>, b: Pick<Kind, 'count' | 'firstLine'>): number {
  return b.count - a.count || a.firstLine - b.firstLine;
}
