/** The delimiter of rows whose cells stand at fixed places. */
export const FIXED = 'fixed';
/** What stands in a cell that holds nothing. */
const NOTHING = /^[-–—]+$/;

/** The cells of a row, cut where its columns begin. @param starts characters from the beginning of the line */
export function cutAt(text: string, starts: readonly number[]): string[] {
  return starts.map((start, i) => {
    const cell = text.slice(i === 0 ? 0 : start, starts[i + 1]).trim();
    return NOTHING.test(cell) ? '' : cell;
  });
}
