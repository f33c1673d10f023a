import { cellText } from './empty-cells.js';

/** The delimiter of rows whose cells stand at fixed places. */
export const FIXED = 'fixed';

/** The cells of a row, cut where its columns begin. @param starts characters from the beginning of the line */
export function cutAt(text: string, starts: readonly number[]): string[] {
  return starts.map((start, i) => cellText(text.slice(i === 0 ? 0 : start, starts[i + 1]), true));
}
