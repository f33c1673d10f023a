import { newStamp, StampPattern } from '../../time/stamp.js';
import type { StampGuess } from './guess.js';

/** Blocks are written when they are over: the next may begin a little before the last line of one above. */
const MIN_FORWARD = 0.8;
/** Minimum fraction of the lines with a time alone that are indented, below a line with a date. */
const BELOW = 0.97;

/**
 * Whether lines with date and time begin blocks whose indented lines have times of day alone, of the same form: those
 * are further times of what the line above begins, such as its end, and no times of lines.
 *
 * @param dated the stamps with dates, at the beginnings of lines
 * @param alone the times of day that more lines have
 * @param lines as they are written, with their indents
 */
export function headsBlocks(dated: StampGuess, alone: StampGuess, lines: readonly string[]): boolean {
  if (alone.at !== 'anywhere' || dated.at !== 'start' || dated.forward < MIN_FORWARD) return false;
  if (!dated.pattern.includes(alone.pattern) || dated.pattern === alone.pattern) return false;
  const [heads, times] = [new StampPattern(dated.pattern), new StampPattern(alone.pattern)];
  const stamp = newStamp();
  const has = (pattern: StampPattern, place: 'start' | 'anywhere', text: string): boolean => {
    const bytes = Buffer.from(text.slice(0, 400));
    return pattern.readIn(place, bytes, 0, bytes.length, stamp);
  };
  let below = 0;
  let others = 0;
  for (const text of lines) {
    if (has(heads, 'start', text)) {
      if (/^\s/.test(text)) return false;
    } else if (has(times, 'anywhere', text)) {
      // A time in front is that of its line: `    20:31:14  …`.
      const isFurther = /^\s/.test(text) && text.slice(0, stamp.start).trim() !== '';
      if (isFurther) below++;
      else others++;
    }
  }
  return below > 0 && below >= BELOW * (below + others);
}

/** A named time alone on its line, with its indent: `    ends: 21:04:10`. */
const NAMED_TIME = /^(\s+)\p{L}[\p{L}\s_-]{0,24}[:=]\s*\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?\s*$/u;
/** A time in front of its line. */
const TIME_FIRST = /^(\s*)\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?\s+\S/u;

/**
 * Whether times in front begin the nodes of a tree, and all others stand named and alone on deeper lines: those are
 * further times of their nodes, such as its end, and no times of lines.
 *
 * @param lines as they are written, with their indents
 */
export function headsNodes(lines: readonly string[]): boolean {
  const indents = (form: RegExp): number[] => lines.flatMap((line) => form.exec(line)?.[1]?.length ?? []);
  const [heads, named] = [indents(TIME_FIRST), indents(NAMED_TIME)];
  const timed = lines.filter((line) => /\d{1,2}:\d{2}/.test(line)).length;
  return (
    heads.length >= MIN_NODES &&
    named.length >= MIN_NODES &&
    heads.length + named.length >= BELOW * timed &&
    Math.max(...heads) < Math.min(...named)
  );
}
/** Minimum number of nodes, and of further times. */
const MIN_NODES = 8;
