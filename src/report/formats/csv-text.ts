/** Tables as CSV (RFC 4180). */

/** What a spreadsheet would run: such a text is written with an apostrophe before it. */
const FORMULA = /^[=+\-@\t\r]/;
/** Texts in which a reader would lose its place, or whose blanks it would take away. */
const QUOTED = /[",\r\n\uFEFF]|^ | $/;

/** Rows of a table, each with a line's end. */
export function csvText(rows: Iterable<readonly (string | number)[]>): string {
  let text = '';
  for (const row of rows) text += `${row.map(cell).join(',')}\r\n`;
  return text;
}

function cell(value: string | number): string | number {
  if (typeof value === 'number') return value;
  const isFormula = FORMULA.test(value);
  if (!isFormula && !QUOTED.test(value)) return value;
  return `"${isFormula ? "'" : ''}${value.replaceAll('"', '""')}"`;
}
