/** Tables as CSV (RFC 4180). */

/** What a spreadsheet would execute: such a text is prefixed with an apostrophe. */
const FORMULA = /^[=+\-@\t\r]/;
/** Texts that would break parsing, or whose blanks would be trimmed. */
const QUOTED = /[",\r\n\uFEFF]|^ | $/;

/** Rows of a table, each with a line ending. */
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
