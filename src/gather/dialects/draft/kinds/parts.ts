import { lengthMs } from '../lengths.js';
import { plainWords } from '../lexicon/plain-words.js';
import { sideOfTitle } from '../lexicon/sides.js';
import { isSubject, isTelling, saysLoss } from '../lexicon/said.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import { SUBJECTS } from '../lexicon/subjects.js';
import { nearTime } from '../time/rough-clock.js';
import type { Kind, Slot } from './kind.js';
import { lengthBefore } from './length-stated.js';
import { endsInTime, UNTIL } from './leading-on.js';

/**
 * An additional time stated by the lines of a kind, treated as a kind: `opened 21:03:10` inside a report of the whole
 * exposure.
 */
export interface Part {
  readonly whole: Kind;
  readonly slot: Slot;
  readonly kind: Kind;
}

const STAR = SUBJECTS.find(({ id }) => id === 'star')?.strong;
const SAVED = SUBJECTS.find(({ id }) => id === 'frame')?.strong;

/** Whether the stamp of a line is part of its text: not at all, as a time of day, or as a counter. */
export type OwnStamp = 'apart' | 'of-day' | 'counts';

/**
 * The additional times that the lines of a kind state.
 *
 * @param ownStamp if the line's own stamp is part of its text, whether it is a time of day or a counter
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
    // The words directly before the time say what began or ended then; the subject may be at the beginning.
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

/** A kind whose rows state begin and end: their own time is one of the two. */
export interface Ranged {
  readonly slot: Slot;
  /** The slot holds the end; otherwise the begin. */
  readonly isEnd: boolean;
  /** The kind at the times at which its spans ended. */
  readonly kind: Kind;
  /** Its rows say that a train waits for a dither. */
  readonly isWait?: true;
  /** Durations, ms, by occurrence. */
  readonly tookMs: readonly number[];
  /** The length that rows stamped at the begin also state, if the span is over before the other time. */
  readonly length?: Slot;
}

const MOSTLY = 0.6;
const FILLED = 0.95;
/** The same for a column that holds it in other rows as well: some of these were aborted. */
const OFTEN_FILLED = 0.75;
/** Reads an additional time of a line: its text, the line's number and own time. @returns ms, or NaN */
export type OtherTime = (text: string, line: number, lineMs: number) => number;

/**
 * The kinds whose rows state both ends. Rows with two times determine the meaning of further times in other rows.
 *
 * @param counted reads counters, in a log whose own times are pairs of counters
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
 * The begin or end in another column than the rows' own time, `null` if there is none.
 *
 * @param usual the columns that hold it in other rows
 */
function rangeOf(whole: Kind, counted?: OtherTime, usual: ReadonlySet<string> = new Set()): Ranged | null {
  const clocks = whole.slots.filter(({ type }) => type === (counted === undefined ? 'clock' : 'number'));
  // Of several times, the first that all rows have is the other end: aborted ones lack it.
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
  // In a text the second stamp directly follows the first; elsewhere a time is part of the message.
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

/** A kind whose rows state another end in a slot, with its times in ms; `null` if these are on both sides. */
export function rangedTo(whole: Kind, slot: Slot, other: readonly number[]): Ranged | null {
  const away = other.map((atMs, i) => atMs - (whole.atMs[i] ?? NaN));
  const share = (test: (ms: number) => boolean): number => away.filter(test).length / Math.max(1, away.length);
  if (isOtherZone(away)) return null;
  const isEnd = share((ms) => ms > 200) >= MOSTLY;
  if (!isEnd && share((ms) => ms < -200) < MOSTLY) return null;
  const slots = whole.slots.filter((one) => one !== slot);
  // Begun, this long, and saved at the other time: that is not the end.
  const length = isEnd ? lengthBefore(slot, slots, away) : undefined;
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

/** The first of several times; if it is later than the row's own, as for a planned time, one of the usual ends. */
function firstOrUsual(
  { atMs, timeColumn }: Kind,
  filled: readonly Slot[],
  usual: ReadonlySet<string>,
): Slot | undefined {
  const [first] = filled;
  const isAhead = (one: Slot): boolean =>
    atMs.filter((ms, i) => timeOf(one, i, ms) < ms - 200).length >= MOSTLY * atMs.length;
  if (first === undefined) return first;
  const sides = [timeColumn, ...filled.map(({ path }) => path)].map((title) => (title ? sideOfTitle([title]) : null));
  const opposite = sides[0] === 'begin' ? 'end' : sides[0] === 'end' ? 'begin' : undefined;
  const titled = opposite === undefined ? undefined : filled[sides.indexOf(opposite, 1) - 1];
  if (titled !== undefined) return titled;
  if (!isAhead(first)) return first;
  return filled.find((one) => one.path !== null && usual.has(one.path) && !isAhead(one)) ?? first;
}

const CALM = 3;

/** Whether a column states when things were calm in rows about something else, such as guiding, which continues. */
function tellsCalm(whole: Kind, { path }: Slot): boolean {
  const settled = (text: string): number => wordEvidence(text).get('settling-end') ?? 0;
  return path !== null && settled(path) >= CALM && settled(whole.wording) === 0;
}

/** Maximum difference between the stamps of two programs that relay a line, ms, on nearly all lines. */
const PASSED_ON_MS = 1000;
const NEARLY_ALL = 0.9;
const MIN_LINES = 4;

/** Whether a time in the text of lines repeats their own: the program's stamp inside that of the logger. */
function tellsSameTime({ atMs, slots }: Kind, slot: Slot): boolean {
  // A table of begins and ends has rows for momentary events: both columns hold the same.
  if (slot.path !== null && atMs.every((ms, i) => timeOf(slot, i, ms) === ms)) return true;
  // Prose and reports state times where they say what took place; one of several applies to the whole.
  if (slot.before.some(isTelling) || slots.filter(({ type }) => type === 'clock').length > 1) return false;
  const same = atMs.filter((ms, i) => Math.abs(timeOf(slot, i, ms) - ms) <= PASSED_ON_MS);
  return atMs.length >= MIN_LINES && same.length >= NEARLY_ALL * atMs.length;
}

/** The time in a slot on an occurrence of its kind, ms; NaN if none. */
export function timeOf({ timesMs, perLine }: Slot, nth: number, lineMs: number): number {
  return timesMs === undefined ? nearTime(perLine[nth] ?? '', lineMs) : (timesMs[nth] ?? NaN);
}

/** An exposure may last a quarter of an hour, hardly an hour. */
const HALF_HOUR_MS = 1_800_000;
const SAME_MS = 2100;

/** Whether times differ by multiples of half an hour, like clocks of two zones: both state the same instant. */
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

/** If the stamp may be anywhere in the line, one of the times in it is the line's own. */
function isOwnTime(whole: Kind, slot: Slot): boolean {
  return whole.atMs.every((atMs, i) => {
    const awayMs = Math.abs(timeOf(slot, i, atMs) - atMs) % HALF_DAY_MS;
    return Math.min(awayMs, HALF_DAY_MS - awayMs) < 1000;
  });
}

/** The subject of a line comes first, such as a star with its loss; other names at its beginning are values. */
function headSubjects(head: string): string {
  const words = head.replace(/#/g, ' ').split(/\s+/);
  const isStar = (word = ''): boolean => STAR?.test(plainWords(word)) === true && !saysLoss(word);
  const at = words.findIndex(isSubject);
  // `Guide star lost` is about the star.
  const [subject = '', next = ''] = at < 0 ? [] : words.slice(isStar(words[at + 1]) ? at + 1 : at);
  return isStar(subject) && saysLoss(next) ? `${subject} ${next}` : subject;
}
