/** The delimiter of rows whose columns are aligned with blanks. */
export const BLANKS = 'blanks';

/** Two or more blanks, or a tab, separate cells: a single blank is part of a cell's text. */
const BETWEEN = /\s{2,}|\t/;
/** Placeholder for an empty cell, which cannot be left out here. */
const NOTHING = /^[-–—]+$/;

/** The cells of a row whose columns are aligned with blanks. */
export function setInColumns(text: string): string[] {
  return text
    .trim()
    .split(BETWEEN)
    .map((cell) => (NOTHING.test(cell) ? '' : cell));
}
