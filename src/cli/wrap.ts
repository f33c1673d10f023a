/** Prose on a terminal: lines are broken between words, with a hanging indent. */
import stringWidth from 'string-width';
import { SPELT_LETTERS, SPELT_NUMBER } from '../model/index.js';

/** On a narrower terminal no line is broken: there would be one word per line. */
const LEAST_COLUMNS = 30;
/** Two blanks twice within a line set columns apart: a table, which broken lines would tear. */
const TABULAR = /\S {2,}\S.*\S {2,}\S/;
/** A blank that a line may end at: none before a unit, which stays with its figure, nor within a designation. */
const BREAK = new RegExp(` (?!(?:h|min|s|px|%)(?:[\\s,.;:)]|$))(?!(?<=${SPELT_LETTERS})${SPELT_NUMBER})`, 'u');

/** Scripts that set no blanks between words: a line may end behind any of their letters. */
const BETWEEN_SIGNS = /(?<=[\p{sc=Han}\p{sc=Hira}\p{sc=Kana}、。])(?=[\p{sc=Han}\p{sc=Hira}\p{sc=Kana}])/u;
/** Text meant for copying is not broken. */
const PATH = /[/\\]/;
/** Characters that take one column each. */
const PLAIN = /^[\x20-\x7e\xa1-\xac\xae-\u02ff\u2010-\u2027\u2032\u2033]*$/;

/** Columns that a text takes on a terminal: wide letters take two, marks over others none. */
export function columnsOf(text: string): number {
  return PLAIN.test(text) ? text.length : stringWidth(text);
}

/**
 * Breaks the lines of a text that are longer than the terminal is wide.
 *
 * @param columns the terminal's width in columns; absent if the text goes elsewhere, which keeps its lines
 */
export function wrapped(text: string, columns: number | undefined): string {
  if (columns === undefined || columns < LEAST_COLUMNS) return text;
  return text
    .split('\n')
    .map((line) => (columnsOf(line) <= columns || TABULAR.test(line) ? line : broken(line, columns)))
    .join('\n');
}

function broken(line: string, columns: number): string {
  const [indent = ''] = /^ */.exec(line) ?? [];
  const further = `${indent}  `;
  const lines: string[] = [];
  let at = indent;
  for (const word of line.slice(indent.length).split(BREAK)) {
    for (const [i, piece] of (PATH.test(word) ? [word] : word.split(BETWEEN_SIGNS)).entries()) {
      const isFirst = at.trim() === '';
      const before = isFirst || i > 0 ? '' : ' ';
      if (!isFirst && columnsOf(at) + columnsOf(before + piece) > columns) {
        lines.push(at);
        at = `${further}${piece}`;
      } else at = `${at}${before}${piece}`;
    }
  }
  return [...lines, at].join('\n');
}
