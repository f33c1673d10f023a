/** The delimiter of rows that are set in columns. */
export const BLANKS = 'blanks';

/** Two blanks or more, or a tab, stand between cells: one blank is part of what a cell says. */
const BETWEEN = /\s{2,}|\t/;
/** What stands in a cell that holds nothing: it cannot be left empty. */
const NOTHING = /^[-–—]+$/;

/** The cells of a row that is set in columns by blanks. */
export function setInColumns(text: string): string[] {
  return text
    .trim()
    .split(BETWEEN)
    .map((cell) => (NOTHING.test(cell) ? '' : cell));
}
