import { cellText } from './empty-cells.js';

/** The delimiter of rows in fixed-width columns. */
export const FIXED = 'fixed';

/** Small letters on both sides of a column's start: a word that is too long for the column before. */
const OVER = /^\p{Ll}{2}/u;

/**
 * The cells of a row, cut at the column starts, or at the end of a word that is longer than its column.
 *
 * @param starts characters from the beginning of the line
 */
export function cutAt(text: string, starts: readonly number[]): string[] {
  const cuts = starts.map((start, i) => (i === 0 ? 0 : cutBehind(text, start)));
  return cuts.map((cut, i) => cellText(text.slice(cut, cuts[i + 1]), true));
}

function cutBehind(text: string, start: number): number {
  let cut = start;
  while (cut < text.length && OVER.test(text.slice(cut - 1, cut + 1))) cut++;
  return cut;
}
