/** The search for bright pixels: it processes every pixel of a frame, so it is written for speed. */
import type { Samples } from '../pixels/bands.js';

/** The top bit of each half of a word, and the others. */
const TOPS = 0x80008000 | 0;
const REST = 0x7fff7fff;

/** The same memory as words of two numbers; empty if unaligned. */
export function wordsOf(samples: Samples): Int32Array {
  return samples instanceof Int16Array && samples.byteOffset % 4 === 0
    ? new Int32Array(samples.buffer, samples.byteOffset, samples.length >> 1)
    : new Int32Array(0);
}

/** The next position with a sample above the limit, or the end. */
export function nextAbove(samples: Samples, words: Int32Array, from: number, end: number, limit: number): number {
  if (samples instanceof Int16Array) return nextAboveWhole(samples, words, from, end, Math.floor(limit) | 0);
  let at = from;
  while (at < end && !((samples[at] as number) > limit)) at++;
  return at;
}

/** Eight numbers at once if aligned; this loop processes every pixel of a frame. */
function nextAboveWhole(samples: Int16Array, words: Int32Array, from: number, end: number, limit: number): number {
  let at = from;
  for (; at < end && (at & 1) !== 0; at++) if ((samples[at] as number) > limit) return at;
  // Two numbers in a word, offset from the minimum (−32768): one is above a limit below 0 if its top bit is clear, or
  // if adding the limit's complement to 2¹⁵ to its other bits carries into the top bit. No carry reaches the word's
  // other half.
  if (limit < -1 && limit >= -32768 && words.length > 0) {
    const lack = -1 - limit;
    const both = (lack << 16) | lack;
    for (const stop = end - 7; at < stop; at += 8) {
      const word = at >> 1;
      const a = words[word] as number;
      const b = words[word + 1] as number;
      const c = words[word + 2] as number;
      const d = words[word + 3] as number;
      const carries = ((a & REST) + both) | ((b & REST) + both) | ((c & REST) + both) | ((d & REST) + both);
      if (((~(a & b & c & d) | carries) & TOPS) !== 0) break;
    }
  }
  while (at < end && (samples[at] as number) <= limit) at++;
  return at;
}
