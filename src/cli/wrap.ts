/** Prose on a terminal: lines are broken between words, and what goes on stands under the line's beginning. */

/** Narrower than this no line is broken: there would be a word a line. */
const LEAST_COLUMNS = 30;
/** Two blanks twice within a line set columns apart: a table, which broken lines would tear. */
const TABULAR = /\S {2,}\S.*\S {2,}\S/;
/** A blank that a line may end at: none before a unit, which stays with its figure. */
const BREAK = / (?!(?:h|min|s|px|%)(?:[\s,.;:)]|$))/;

/**
 * Breaks the lines of a text that are longer than the terminal is wide.
 *
 * @param columns the terminal's width in characters; absent where the text goes elsewhere, which keeps its lines
 */
export function wrapped(text: string, columns: number | undefined): string {
  if (columns === undefined || columns < LEAST_COLUMNS) return text;
  return text
    .split('\n')
    .map((line) => (line.length <= columns || TABULAR.test(line) ? line : broken(line, columns)))
    .join('\n');
}

function broken(line: string, columns: number): string {
  const [indent = ''] = /^ */.exec(line) ?? [];
  const further = `${indent}  `;
  const lines: string[] = [];
  let at = indent;
  for (const word of line.slice(indent.length).split(BREAK)) {
    const isFirst = at.trim() === '';
    if (!isFirst && at.length + 1 + word.length > columns) {
      lines.push(at);
      at = `${further}${word}`;
    } else at = isFirst ? `${at}${word}` : `${at} ${word}`;
  }
  return [...lines, at].join('\n');
}
