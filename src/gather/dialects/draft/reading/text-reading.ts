import type { BaseLine, HeadLine } from '../time/base-lines.js';
import { RoughClock } from '../time/rough-clock.js';
import type { HeadedTimes } from '../time/headed-times.js';
import { settled, type Stamped } from '../time/settled-stamp.js';
import type { StampGuess } from '../time/guess.js';
import { newStamp, StampPattern } from '../../time/stamp.js';
import { isOutputBetween } from './output-between.js';
import type { LogLines } from './log-lines.js';
import { paragraphsOf } from './paragraph-reading.js';
import type { CountReader, Reading } from './reading.js';

/** Minimum fraction of unstamped lines for them to belong to the stamped lines above. */
const ENTRY_SHARE = 0.15;

/** A log whose headings state the more significant part of its times. */
export function headedReading(lines: readonly HeadLine[], { stamp, bases, headings }: HeadedTimes): Reading {
  return stampedReading(lines, { stamp, bases, doubtfulTimes: false }, headings);
}

/** A log of lines of text. */
export function textReading({ lines, name }: LogLines, guess: StampGuess | null): Reading {
  const probe = guess === null ? null : RoughClock.of(guess);
  const times = lines
    .filter(({ text }) => probe !== null && probe.read(text) !== null)
    .map(({ text, number }) => ({ text, line: number }));
  return stampedReading(lines, settled(guess, times, lines, name));
}

/** @param headings reference instants of times, ms, by the lines that state them */
function stampedReading(
  lines: readonly HeadLine[],
  { stamp, bases, doubtfulTimes }: Stamped,
  headings: ReadonlyMap<number, number> = new Map(),
): Reading {
  const clock = stamp === null ? null : RoughClock.of(stamp);
  const added = new Map<number, number>();
  const read = lines.map(({ text, number, isCut = false }) => {
    const baseMs = headings.get(number);
    if (baseMs !== undefined) clock?.startAt(baseMs);
    const found = baseMs === undefined ? (clock?.read(text) ?? null) : null;
    if (found !== null) added.set(number, found.addedMs);
    return { text: text.trim(), number, isCut, message: found?.rest.trim() ?? null, atMs: found?.atMs ?? NaN };
  });
  const paragraphs = paragraphsOf(lines, stamp);
  if (paragraphs !== null) return { ...common(stamp, bases, doubtfulTimes), ...paragraphs };
  const first = Math.max(
    0,
    read.findIndex(({ message }) => message !== null),
  );
  const unstamped = read.filter(({ message }) => message === null);
  const entries =
    clock !== null &&
    // Headings with a reference instant belong to no line above them.
    read.slice(first).filter(({ message, number }) => message === null && !headings.has(number)).length >
      lines.length * ENTRY_SHARE &&
    !isOutputBetween(read.slice(first));
  const messages: { text: string; line: number; atMs: number }[] = [];
  for (const { text, number, message, atMs } of read) {
    const last = messages[messages.length - 1];
    if (entries && message === null && last !== undefined) last.text += `\n${text}`;
    else if (message !== null || clock === null) messages.push({ text: message ?? text, line: number, atMs });
    else messages.push({ text, line: number, atMs: NaN });
  }
  return {
    ...common(stamp, bases, doubtfulTimes),
    entries: entries ? 'stamp' : null,
    messages,
    unstamped: entries ? unstamped.filter(({ number }) => number < (read[first]?.number ?? 0)) : unstamped,
    loose: unstamped,
    counted: stamp === null ? null : countReader(countIn(stamp), added),
    ...againIn(stamp, added),
  };
}

function common(
  stamp: StampGuess | null,
  bases: readonly BaseLine[],
  doubtfulTimes: boolean,
): Pick<Reading, 'layout' | 'stamp' | 'timePaths' | 'fieldLines' | 'bases' | 'doubtfulTimes' | 'counted' | 'join'> {
  return {
    layout: { kind: 'text' },
    stamp,
    timePaths: [],
    fieldLines: [],
    bases,
    doubtfulTimes,
    counted: null,
    join: null,
  };
}

/** The form of the second counter of lines with two; `undefined` if lines have one. */
function countIn({ pattern }: StampGuess): string | undefined {
  return /(\{elapsed[^}]*\})[^{}]+$/.exec(pattern)?.[1];
}

/** In sentences that state a range, both times have the same form. */
function againIn(stamp: StampGuess | null, added: ReadonlyMap<number, number>): Pick<Reading, 'again'> {
  const isInSentences = stamp?.at === 'anywhere' && stamp.since === undefined && countIn(stamp) === undefined;
  const again = isInSentences && stamp.pattern.includes('{elapsed') ? countReader(stamp.pattern, added) : null;
  return again === null ? {} : { again };
}

/** Reads a further counter in a line, within the section of the line; `null` if there is none. */
function countReader(shape: string | undefined, added: ReadonlyMap<number, number>): CountReader | null {
  if (shape === undefined) return null;
  const count = new StampPattern(shape);
  const stamp = newStamp();
  return {
    pattern: shape,
    read: (text, line) => {
      const bytes = Buffer.from(text);
      return count.readIn('anywhere', bytes, 0, bytes.length, stamp) ? stamp.ms + (added.get(line) ?? 0) : NaN;
    },
  };
}
