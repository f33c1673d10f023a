import { lengthMs } from '../lengths.js';
import { isTook } from '../group-names.js';
import { plainWords } from '../lexicon/plain-words.js';
import { isSubject, isTelling, saysLoss } from '../lexicon/said.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import { SUBJECTS } from '../lexicon/subjects.js';
import { nearTime } from '../time/rough-clock.js';
import type { Kind, Slot } from './kind.js';
import { lengthStated } from './length-stated.js';
import { endsInTime, UNTIL } from './leading-on.js';

/**
 * A time of its own that the lines of a kind state, seen as a kind: `opened 21:03:10` inside a report of the whole
 * exposure.
 */
export interface Part {
  readonly whole: Kind;
  readonly slot: Slot;
  readonly kind: Kind;
}

const STAR = SUBJECTS.find(({ id }) => id === 'star')?.strong;
const SAVED = SUBJECTS.find(({ id }) => id === 'frame')?.strong;

/** Whether the stamp of a line is part of its text: not at all, as a time of day, or as a time that counts. */
export type OwnStamp = 'apart' | 'of-day' | 'counts';

/**
 * The times that the lines of a kind state besides their own.
 *
 * @param ownStamp where the line's own stamp is part of its text, whether it is a time of day or counts
 */
export function partsOf(whole: Kind, ownStamp: OwnStamp): Part[] {
  if (ownStamp === 'counts') return [];
  const clocks = whole.slots.filter(
    (slot) =>
      slot.type === 'clock' &&
      !(ownStamp === 'of-day' && isOwnTime(whole, slot)) &&
      !isOtherZone(whole.atMs.map((atMs, i) => timeOf(slot, i, atMs) - atMs)) &&
      !tellsSameTime(whole, slot),
  );
  return clocks.map((slot) => {
    const words = [...slot.before].reverse();
    const near = words.join(' ');
    // Words right in front of the time say what began or ended then; what it was may stand at the head.
    const head = whole.wording.split('\n')[0] ?? '';
    const wording = words.some(isSubject) ? near : `${headSubjects(head)} ${near}`.trim();
    const isSaving = SAVED?.test(plainWords(near)) === true;
    return {
      whole,
      slot,
      kind: {
        ...whole,
        wording,
        lead: 0,
        hints: '',
        // The file belongs to the time at which it was saved.
        slots: whole.slots.filter(({ type }) => type !== 'clock' && (type !== 'file' || isSaving)),
        atMs: whole.atMs.map((atMs, i) => timeOf(slot, i, atMs)),
      },
    };
  });
}

const HALF_DAY_MS = 43_200_000;

/** A kind whose rows state when a thing began and when it ended: their own time is one of the two. */
export interface Ranged {
  readonly slot: Slot;
  /** The slot holds the end; else it holds the beginning. */
  readonly isEnd: boolean;
  /** The kind at the times at which the things were over. */
  readonly kind: Kind;
  /** How long they had taken, ms, by occurrence. */
  readonly tookMs: readonly number[];
  /** The length that rows at the beginning state as well, where it is over before the other time. */
  readonly length?: Slot;
}

const MOSTLY = 0.6;
const FILLED = 0.95;
/** The same of a column that holds it in other rows as well: of these some were given up. */
const OFTEN_FILLED = 0.75;
/** Reads a time that a line states besides its own: its text, the line's number and own time. @returns ms, or NaN */
export type OtherTime = (text: string, line: number, lineMs: number) => number;

/**
 * The kinds whose rows state both ends. What several times of a row are is seen by rows of two times.
 *
 * @param counted reads counts, in a log whose own times are counts in pairs
 */
export function rangesOf(kinds: readonly Kind[], counted?: OtherTime): Map<Kind, Ranged> {
  const ofTwo = kinds.filter(({ slots }) => slots.filter(({ type }) => type === 'clock').length === 1);
  const usual = new Set(ofTwo.flatMap((kind) => rangeOf(kind, counted)?.slot.path ?? []));
  return new Map(
    kinds.flatMap((kind): [Kind, Ranged][] => {
      const range = rangeOf(kind, counted, usual);
      return range === null ? [] : [[kind, range]];
    }),
  );
}

/**
 * The beginning or end that a column holds beside the rows' own time, `null` where there is none.
 *
 * @param usual the columns that hold it in other rows
 */
function rangeOf(whole: Kind, counted?: OtherTime, usual: ReadonlySet<string> = new Set()): Ranged | null {
  const clocks = whole.slots.filter(({ type }) => type === (counted === undefined ? 'clock' : 'number'));
  // Of several times of a row the first that all rows have is its other end: what was given up has none.
  const isFilled = (one: Slot): boolean =>
    (one.path !== null || one.isFront === true) &&
    one.perLine.filter((value) => value !== undefined && value !== '').length >=
      (one.path !== null && usual.has(one.path) ? OFTEN_FILLED : FILLED) * one.perLine.length;
  const slot =
    counted !== undefined
      ? clocks.find(({ before }) => before.length === 0)
      : clocks.length === 1
        ? clocks[0]
        : firstOrUsual(whole, clocks.filter(isFilled), usual);
  if (slot === undefined || tellsCalm(whole, slot)) return null;
  // In a text the second stamp stands right behind the first; elsewhere a time is part of what is told.
  const isUntil = slot.path === null && clocks.length === 1 && UNTIL.test(plainWords(slot.before[0] ?? ''));
  const isInText = slot.path === null && slot.isFront !== true && !isUntil && !endsInTime(whole);
  if (isInText && !/^\W*#/.test(whole.wording)) return null;
  if (isInText && slot.before.length > 0) return null;
  const other = whole.atMs.map((atMs, i) =>
    counted === undefined ? timeOf(slot, i, atMs) : counted(slot.perLine[i] ?? '', whole.lines[i] ?? 0, atMs),
  );
  const away = other.map((atMs, i) => atMs - (whole.atMs[i] ?? NaN));
  if (counted === undefined && isInText && (tellsSameTime(whole, slot) || isOtherZone(away))) return null;
  return rangedTo(whole, slot, other);
}

/** A kind whose rows state another end in a slot, by its times in ms; `null` where these stand on both sides. */
export function rangedTo(whole: Kind, slot: Slot, other: readonly number[]): Ranged | null {
  const away = other.map((atMs, i) => atMs - (whole.atMs[i] ?? NaN));
  const share = (test: (ms: number) => boolean): number => away.filter(test).length / Math.max(1, away.length);
  if (isOtherZone(away)) return null;
  const isEnd = share((ms) => ms > 200) >= MOSTLY;
  if (!isEnd && share((ms) => ms < -200) < MOSTLY) return null;
  const slots = whole.slots.filter((one) => one !== slot);
  // Begun, taken so long, and saved at the other time: that is not when it was over.
  const length = isEnd ? lengthStated(slots.filter(isTook), away) : undefined;
  if (length !== undefined) {
    const tookMs = length.perLine.map((_, i) => lengthMs(length, i));
    const atMs = whole.atMs.map((ms, i) => ms + (tookMs[i] ?? NaN));
    return { slot, isEnd, kind: { ...whole, slots, atMs }, tookMs, length };
  }
  return {
    slot,
    isEnd,
    kind: { ...whole, slots, atMs: isEnd ? other : whole.atMs },
    tookMs: away.map(Math.abs),
  };
}

/** The first of several times; where that is ahead of the row's own, as when a thing was asked for, a usual end. */
function firstOrUsual({ atMs }: Kind, filled: readonly Slot[], usual: ReadonlySet<string>): Slot | undefined {
  const [first] = filled;
  const isAhead = (one: Slot): boolean =>
    atMs.filter((ms, i) => timeOf(one, i, ms) < ms - 200).length >= MOSTLY * atMs.length;
  if (first === undefined || !isAhead(first)) return first;
  return filled.find((one) => one.path !== null && usual.has(one.path) && !isAhead(one)) ?? first;
}

const CALM = 3;

/** Whether a column says when it was calm in rows about something else, such as the guiding: that goes on. */
function tellsCalm(whole: Kind, { path }: Slot): boolean {
  const settled = (text: string): number => wordEvidence(text).get('settling-end') ?? 0;
  return path !== null && settled(path) >= CALM && settled(whole.wording) === 0;
}

/** Two programs that pass a line on stamp it within this of each other, ms, on nearly all lines. */
const PASSED_ON_MS = 1000;
const NEARLY_ALL = 0.9;
const MIN_LINES = 4;

/** Whether a time in the text of lines is their own once more: the program's, inside that of what wrote the log. */
function tellsSameTime({ atMs, slots }: Kind, slot: Slot): boolean {
  // A table of what begins and ends has rows of what takes no time: both columns hold the same.
  if (slot.path !== null && atMs.every((ms, i) => timeOf(slot, i, ms) === ms)) return true;
  // Prose and reports state their times where they say what took place; one of several is that of the whole.
  if (slot.before.some(isTelling) || slots.filter(({ type }) => type === 'clock').length > 1) return false;
  const same = atMs.filter((ms, i) => Math.abs(timeOf(slot, i, ms) - ms) <= PASSED_ON_MS);
  return atMs.length >= MIN_LINES && same.length >= NEARLY_ALL * atMs.length;
}

/** The time that a slot holds on an occurrence of its kind, ms; NaN where it holds none. */
export function timeOf({ timesMs, perLine }: Slot, nth: number, lineMs: number): number {
  return timesMs === undefined ? nearTime(perLine[nth] ?? '', lineMs) : (timesMs[nth] ?? NaN);
}

/** An exposure may last a quarter of an hour, hardly an hour. */
const HALF_HOUR_MS = 1_800_000;
const SAME_MS = 2100;

/** Whether times differ by whole half hours, as the clocks of two zones do: both tell the same instant. */
function isOtherZone(awayMs: readonly number[]): boolean {
  const known = awayMs.filter((ms) => !Number.isNaN(ms));
  return (
    known.length > 0 &&
    known.every((ms) => {
      const halves = Math.round(ms / HALF_HOUR_MS);
      return Math.abs(halves) > 1 && Math.abs(ms - halves * HALF_HOUR_MS) <= SAME_MS;
    })
  );
}

/** Where the stamp stands anywhere in the line, one of the times in it is the line's own. */
function isOwnTime(whole: Kind, slot: Slot): boolean {
  return whole.atMs.every((atMs, i) => {
    const awayMs = Math.abs(timeOf(slot, i, atMs) - atMs) % HALF_DAY_MS;
    return Math.min(awayMs, HALF_DAY_MS - awayMs) < 1000;
  });
}

/** What a line is about stands first in it, a star with its loss; what else its head names are values. */
function headSubjects(head: string): string {
  const words = head.replace(/#/g, ' ').split(/\s+/);
  const isStar = (word = ''): boolean => STAR?.test(plainWords(word)) === true && !saysLoss(word);
  const at = words.findIndex(isSubject);
  // `Guide star lost` is about the star.
  const [subject = '', next = ''] = at < 0 ? [] : words.slice(isStar(words[at + 1]) ? at + 1 : at);
  return isStar(subject) && saysLoss(next) ? `${subject} ${next}` : subject;
}
