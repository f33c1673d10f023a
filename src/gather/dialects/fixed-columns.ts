import { cellText } from './empty-cells.js';

/** The delimiter of rows in fixed-width columns. */
export const FIXED = 'fixed';

/** The cells of a row, cut at the column starts. @param starts characters from the beginning of the line */
export function cutAt(text: string, starts: readonly number[]): string[] {
  return starts.map((start, i) => cellText(text.slice(i === 0 ? 0 : start, starts[i + 1]), true));
}
