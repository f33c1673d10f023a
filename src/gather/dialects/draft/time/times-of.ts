import { newStamp, StampPattern } from '../../time/stamp.js';
import type { StampGuess } from './guess.js';

/** A stamp is within this many characters of a line's beginning or end. */
const WITHIN = 400;

/** The times in ms that a stamp reads in the texts that have one, in order. */
export function timesOf({ pattern, at }: StampGuess, texts: readonly { readonly text: string }[]): number[] {
  const read = new StampPattern(pattern);
  const stamp = newStamp();
  return texts.flatMap(({ text }) => {
    const bytes = Buffer.from(at === 'end' ? text.slice(-WITHIN) : text.slice(0, WITHIN));
    return read.readIn(at, bytes, 0, bytes.length, stamp) ? [stamp.ms] : [];
  });
}
