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
