import { newStamp, StampPattern, type StampPlace } from '../../time/stamp.js';
import { chosenBases, type CountedLine } from './base-choice.js';
import { type ClockReading, clocksApart } from './clocks-apart.js';
import { withCount } from './base-count.js';
import { baseInName, baseLinesIn, isWholeDay, type BaseLine, type HeadLine } from './base-lines.js';
import { countUnit, inUnit } from './count-unit.js';
import { areCounts, ofLinesAbove, tiedOnce } from './composed/bases-below.js';
import { onDial } from './composed/dial.js';
import { ofItsHour } from './composed/hour-base.js';
import { turnOf } from './composed/turns.js';
import { asCounts, countedTimes } from './counted-times.js';
import type { StampGuess } from './guess.js';
import { provedOrdinal } from './ordinal-days.js';
import { underEvenings } from './under-evenings.js';
import { summed } from './since-previous.js';

/** Number of lines at the beginning that may state the base of times; further on, as many unstamped lines. */
export const HEAD_LINES = 60;
const BASES = 400;
/** Counts since midnight begin between these. */
const EVENING = { fromMs: 54_000_000, toMs: 108_000_000 } as const;
/** Minimum fraction of stamps at line beginnings, among those found anywhere. */
const AT_START = 0.8;
const DAY_S = 86_400;
const HOUR_S = 3600;
/** Lines may be written slightly out of order. */
const JITTER_MS = 10_000;

/** The final stamps of a log. */
export interface Stamped {
  readonly stamp: StampGuess | null;
  readonly bases: readonly BaseLine[];
  readonly doubtfulTimes: boolean;
}

/** The stamps as times of day, or as times relative to an instant in some line. */
export function settled(
  guess: StampGuess | null,
  texts: readonly { readonly text: string; readonly line: number }[],
  lines: readonly HeadLine[],
  name = '',
): Stamped {
  const stamp = guess === null ? null : onDial(provedOrdinal(guess, texts), texts);
  if (stamp?.from !== undefined) return { stamp, bases: [], doubtfulTimes: false };
  if (stamp === null || /\{(?:day|week-date|b|serial-day|epoch|julian|mjd)/.test(stamp.pattern))
    return { stamp: stamp === null ? null : underEvenings(stamp, texts), bases: [], doubtfulTimes: false };
  const counted = stamp.at === 'anywhere' ? countedAtStart(stamp, texts, lines, name) : null;
  if (counted !== null) return counted;
  const stamped = new Set(texts.map(({ line }) => line));
  const inName = baseInName(
    name,
    texts.map(({ text }) => text),
  );
  const all = [
    ...baseLinesIn([
      ...withoutStamps(lines.slice(0, HEAD_LINES), texts, stamp),
      ...lines.filter(({ number }) => !stamped.has(number)).slice(0, BASES),
    ]).filter(({ hasDay, line }) => hasDay || !stamped.has(line.number)),
    ...(inName === null ? [] : [inName]),
  ];
  const instants = all.filter(({ isMidnight }) => !isMidnight);
  const tied = asTied(stamp, texts, lines);
  const { stamp: read, doubtful } = countedTimes(
    tied ?? stamp,
    texts,
    // The date may be elsewhere, as in the head of a night whose sections state only hours.
    instants.some(({ hasDay }) => hasDay) ? instants.filter(({ hasDay }) => hasDay) : instants,
  );
  if (!read.pattern.includes('{elapsed')) return { stamp: read, bases: [], doubtfulTimes: doubtful };
  const asSeconds = countsOf(read, texts);
  const inHead = new Set(all.map(({ line }) => line.number));
  const first = texts[0]?.line ?? Infinity;
  // The unit may be stated at the foot.
  const last = texts.at(-1)?.line ?? 0;
  const head = lines.filter(({ number }) => inHead.has(number) || number < first);
  const foot = lines.filter(({ number }) => number > last);
  const isOfDays = instants.some(isWholeDay);
  const unit = !/\{elapsed(?:-hex)?\}/.test(read.pattern)
    ? 1
    : isOfDays
      ? DAY_S
      : countUnit(asSeconds, lines, head, foot);
  const inOwnUnit = { ...read, pattern: inUnit(read.pattern, unit) };
  const counts = unit === 1 ? asSeconds : countsOf(inOwnUnit, texts);
  const own = (fromMidnight(counts) ? [...all.filter(({ isMidnight }) => isMidnight), ...instants] : instants).map(
    (base) => withCount(base, inOwnUnit.pattern, counts),
  );
  const chosen = ofLinesAbove(chosenBases(own, counts), counts);
  const bases =
    chosen.length > 0 || inOwnUnit.since !== undefined
      ? chosen
      : tiedOnce(baseLinesIn(withoutStamps(lines, texts, inOwnUnit)), counts);
  const zone = zoneOfCounts(inOwnUnit, bases, counts, texts);
  const wraps = bases.some(({ isMidnight }) => isMidnight)
    ? null
    : turnOf(
        counts,
        own,
        inOwnUnit.pattern.includes(':') || /\{elapsed-(?!ms)/.test(inOwnUnit.pattern) ? 1000 : unit * 1000,
      );
  return {
    stamp: { ...inOwnUnit, ...(zone === null ? {} : { zone }), ...(wraps === null ? {} : { wraps }) },
    bases: wraps === HOUR_S ? bases.map((base) => ofItsHour(base, counts)) : bases,
    doubtfulTimes: doubtful,
  };
}

/**
 * The zone of the reference instant, if other lines have a stamp that states its own: both clocks run in parallel up to
 * where the counter restarts.
 */
function zoneOfCounts(
  { more }: StampGuess,
  [base]: readonly BaseLine[],
  counts: readonly CountedLine[],
  texts: readonly { readonly text: string; readonly line: number }[],
): string | null {
  if (more?.length !== 1 || base === undefined || !base.hasDay || base.isMidnight || 'file' in base.section)
    return null;
  const own = newStamp();
  const bytes = Buffer.from(base.line.text.slice(base.stamp.start));
  const pattern = new StampPattern(base.section.base);
  if (pattern.hasOffset || !pattern.readAt(bytes, 0, bytes.length, own)) return null;
  const from = counts.findIndex(({ line }) => line > base.line.number);
  const anew = counts.findIndex(({ ms }, i) => i > from && ms < (counts[i - 1]?.ms ?? NaN) - JITTER_MS);
  const stretch = counts.slice(Math.max(0, from), anew < 0 ? counts.length : anew);
  const [first, last] = [stretch[0]?.line ?? Infinity, stretch.at(-1)?.line ?? 0];
  const countOf = new Map(stretch.map(({ line, ms }) => [line, ms] as const));
  const other = new StampPattern(more[0] ?? '');
  const stamp = newStamp();
  return (
    clocksApart(
      texts.flatMap(({ text, line }): ClockReading[] => {
        const ms = countOf.get(line);
        if (ms !== undefined) return [{ isFirst: true, ms: own.ms + ms, offset: null }];
        const read = Buffer.from(text.slice(0, 400));
        if (line < first || line > last || !other.hasOffset || !other.readAt(read, 0, read.length, stamp)) return [];
        return [{ isFirst: false, ms: stamp.ms, offset: Number.isNaN(stamp.offsetMinutes) ? 0 : stamp.offsetMinutes }];
      }),
    )?.zone ?? null
  );
}

/** The stamp as counts, if a line further down ties its time of day to another instant. */
function asTied(
  stamp: StampGuess,
  texts: readonly { readonly text: string; readonly line: number }[],
  lines: readonly HeadLine[],
): StampGuess | null {
  const counted = stamp.at === 'start' && stamp.since === undefined ? asCounts(stamp) : null;
  if (counted === null) return null;
  const stated = baseLinesIn(withoutStamps(lines, texts, stamp).filter(({ text }) => /(?:19|20)\d{2}/.test(text)));
  return areCounts(stated, countsOf(counted, texts)) ? counted : null;
}

/** Counts that begin in the afternoon or evening if relative to midnight. */
function fromMidnight(counts: readonly CountedLine[]): boolean {
  const [first] = counts;
  return first !== undefined && first.ms > EVENING.fromMs && first.ms < EVENING.toMs;
}

function countsOf({ pattern, at, since }: StampGuess, texts: readonly { text: string; line: number }[]): CountedLine[] {
  const read = new StampPattern(pattern);
  const counts = texts.flatMap(({ text, line }) => {
    const ms = countIn(read, at, text);
    return ms === null ? [] : [{ line, ms }];
  });
  return since === 'previous' ? summed(counts) : counts;
}

/** Stamped lines without their stamps, which set no context. */
function withoutStamps(
  lines: readonly HeadLine[],
  texts: readonly { readonly text: string; readonly line: number }[],
  stamp: StampGuess,
): HeadLine[] {
  const own = new Map(texts.map(({ text, line }) => [line, text] as const));
  const pattern = new StampPattern(stamp.pattern);
  const found = newStamp();
  return lines.flatMap(({ text, number }) => {
    const timed = own.get(number);
    if (timed === undefined) return [];
    // Cells hold the times of rows.
    if (timed !== text || stamp.at === 'anywhere') return [{ text, number }];
    const bytes = Buffer.from(text);
    if (!pattern.readIn(stamp.at, bytes, 0, bytes.length, found)) return [];
    const rest = stamp.at === 'end' ? bytes.subarray(0, found.start) : bytes.subarray(found.end);
    return [{ text: rest.toString('utf8'), number, isCut: true }];
  });
}

/**
 * The times at line beginnings, if nearly all are there: the others may state the base of these. `null` if they are not
 * certainly counters.
 */
function countedAtStart(
  stamp: StampGuess,
  texts: readonly { readonly text: string; readonly line: number }[],
  lines: readonly HeadLine[],
  name: string,
): Stamped | null {
  const pattern = new StampPattern(stamp.pattern);
  const own = texts.filter(({ text }) => countIn(pattern, 'start', text) !== null);
  if (own.length < AT_START * texts.length || own.length === texts.length) return null;
  const read = settled({ ...stamp, at: 'start' }, own, lines, name);
  return read.stamp?.pattern.includes('{elapsed') === true && !read.doubtfulTimes ? read : null;
}

function countIn(pattern: StampPattern, at: StampPlace, text: string): number | null {
  const bytes = Buffer.from(at === 'end' ? text.slice(-400) : text.slice(0, 400));
  const stamp = newStamp();
  return pattern.readIn(at, bytes, 0, bytes.length, stamp) ? stamp.ms : null;
}
