import { newStamp, StampPattern } from '../../time/stamp.js';
import { chosenBases } from './base-choice.js';
import { baseLinesIn, type BaseLine, type HeadLine } from './base-lines.js';
import { countedTimes } from './counted-times.js';
import type { StampGuess } from './guess.js';

/** Lines at the beginning that may state what times count from; further on, as many lines without a stamp. */
export const HEAD_LINES = 60;
const BASES = 400;
/** Of stamps found anywhere in lines, those that stand at the beginning. */
const AT_START = 0.8;

/** The stamps of a log once it is settled what they are. */
export interface Stamped {
  readonly stamp: StampGuess | null;
  readonly bases: readonly BaseLine[];
  readonly doubtfulTimes: boolean;
}

/** The stamps as times of day or as times that count from an instant that some line states. */
export function settled(
  stamp: StampGuess | null,
  texts: readonly { readonly text: string; readonly line: number }[],
  lines: readonly HeadLine[],
): Stamped {
  if (stamp === null || /\{(?:day|b|epoch|julian|mjd)/.test(stamp.pattern))
    return { stamp, bases: [], doubtfulTimes: false };
  const counted = stamp.anywhere ? countedAtStart(stamp, texts, lines) : null;
  if (counted !== null) return counted;
  const stamped = new Set(texts.map(({ line }) => line));
  const bases = baseLinesIn([
    ...lines.slice(0, HEAD_LINES).filter(({ number }) => stamped.has(number)),
    ...lines.filter(({ number }) => !stamped.has(number)).slice(0, BASES),
  ]).filter(({ hasDay, line }) => hasDay || !stamped.has(line.number));
  const { stamp: read, doubtful } = countedTimes(
    stamp,
    texts,
    // The day may stand elsewhere, as the head of a night whose sections state but hours.
    bases.some(({ hasDay }) => hasDay) ? bases.filter(({ hasDay }) => hasDay) : bases,
  );
  if (!read.pattern.includes('{elapsed')) return { stamp: read, bases: [], doubtfulTimes: doubtful };
  const pattern = new StampPattern(read.pattern);
  const counts = texts.flatMap(({ text, line }) => {
    const ms = countIn(pattern, read.anywhere, text);
    return ms === null ? [] : [{ line, ms }];
  });
  return { stamp: read, bases: chosenBases(bases, counts), doubtfulTimes: doubtful };
}

/**
 * The times at the beginnings of lines, where nearly all stand there: the others may state what these count from.
 * `null` where they do not surely count.
 */
function countedAtStart(
  stamp: StampGuess,
  texts: readonly { readonly text: string; readonly line: number }[],
  lines: readonly HeadLine[],
): Stamped | null {
  const pattern = new StampPattern(stamp.pattern);
  const own = texts.filter(({ text }) => countIn(pattern, false, text) !== null);
  if (own.length < AT_START * texts.length || own.length === texts.length) return null;
  const read = settled({ ...stamp, anywhere: false }, own, lines);
  return read.stamp?.pattern.includes('{elapsed') === true && !read.doubtfulTimes ? read : null;
}

function countIn(pattern: StampPattern, anywhere: boolean, text: string): number | null {
  const bytes = Buffer.from(text.slice(0, 400));
  const stamp = newStamp();
  const found = anywhere ? pattern.find(bytes, 0, bytes.length, stamp) : pattern.readAt(bytes, 0, bytes.length, stamp);
  return found ? stamp.ms : null;
}
