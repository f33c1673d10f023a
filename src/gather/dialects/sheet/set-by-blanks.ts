import { CLOCK_CELL, type SheetLine, type SheetTable } from './sheet-lines.js';

const HEAD_WITHIN = 60;
const MIN_NAMES = 4;
const LONGEST_NAME = 24;
const MIN_ROWS = 8;
/** Cells that a row may leave out. */
const MOST_LEFT_OUT = 3;
const BULLET = /^\s*[*•»>·]/;
const UNITS = /^[[(][^\])]{1,12}[\])]$/;

interface Piece {
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

/**
 * The table of a text whose rows are aligned by blanks below their column names, with other lines between them. A cell
 * belongs to the name above it or nearest to it; units on a line below the names belong to these. The rows are marked
 * as taken; `null` if there is no such table.
 */
export function setByBlanks(lines: readonly SheetLine[]): SheetTable | null {
  const head = lines.slice(0, HEAD_WITHIN).findIndex(({ text }) => isHead(piecesOf(text)));
  const names = piecesOf(lines[head]?.text ?? '');
  if (head < 0) return null;
  const below = piecesOf(lines[head + 1]?.text ?? '');
  const units = below.length > 0 && below.every(({ text }) => UNITS.test(text)) ? below : [];
  const rows = lines.slice(head + 1).flatMap((line) => {
    const pieces = BULLET.test(line.text) ? [] : piecesOf(line.text);
    const isRow = pieces.length >= names.length - MOST_LEFT_OUT && pieces.some(({ text }) => CLOCK_CELL.test(text));
    return isRow ? [{ line, cells: cellsBelow(names, pieces) }] : [];
  });
  if (rows.length < MIN_ROWS) return null;
  const unitOf = new Map(units.map((unit) => [nearest(names, unit), unit.text] as const));
  for (const line of lines.slice(head, head + (units.length > 0 ? 2 : 1))) line.isTaken = true;
  for (const { line } of rows) line.isTaken = true;
  return {
    heading: '',
    columns: names.map(({ text }, i) => `${text} ${unitOf.get(i) ?? ''}`.trim()),
    rows: rows.map(({ cells }) => cells),
  };
}

/** The pieces of a line, separated by two or more blanks. */
function piecesOf(text: string): Piece[] {
  return [...text.matchAll(/\S+(?: \S+)*/g)].map(({ 0: piece, index }) => ({
    text: piece,
    from: index,
    to: index + piece.length,
  }));
}

function isHead(pieces: readonly Piece[]): boolean {
  const names = pieces.map(({ text }) => text);
  return (
    names.length >= MIN_NAMES &&
    new Set(names).size === names.length &&
    names.every((name) => /^\p{L}/u.test(name) && name.length <= LONGEST_NAME && !/\d{2}/.test(name))
  );
}

/** The cells of a row by the names above them; two under one name are one. */
function cellsBelow(names: readonly Piece[], pieces: readonly Piece[]): string[] {
  const cells = names.map(() => '');
  let last = 0;
  for (const piece of pieces) {
    // Cells are in the order of the names.
    last = Math.max(last, nearest(names, piece));
    cells[last] = `${cells[last] ?? ''} ${piece.text}`.trim();
  }
  return cells;
}

/** The name above a piece, or nearest to it. */
function nearest(names: readonly Piece[], { from, to }: Piece): number {
  const away = names.map((name) => Math.max(name.from - to, from - name.to));
  return away.indexOf(Math.min(...away));
}
