import { parseCsv } from '../../lines/csv-library.js';

/** A line of a sheet, or lines that one cell in quotes goes over, and its cells. */
export interface SheetLine {
  readonly text: string;
  readonly cells: readonly string[];
  /** A row or remark taken out of the sheet is elsewhere. */
  isTaken: boolean;
}

const DELIMITERS = [';', '\t', ',', '|'] as const;
/** Lines that a delimiter divides into so many cells, of those that hold anything. */
const MIN_CELLS = 3;
const DIVIDED = 0.4;
/** Lines that a cell in quotes goes over at most. */
const MOST_QUOTED = 20;

/** A time of day as people write it, and no part of a longer number. */
export const CLOCK =
  /(?<![\d.,:])\d{1,2}(?:[:.]\d{2}[:.]\d{2}|:\d{2}|\s?h\s?\d{2}(?:\s?m(?:in)?\s?\d{2})?)(?!\d|:\d|[.,]\d{3})/;
/** A cell with a time of day alone. */
export const CLOCK_CELL = new RegExp(`^${CLOCK.source}$`);

/** The lines of a sheet divided into cells; those of one that nothing divides have one cell each. */
export function sheetLines(lines: readonly string[]): SheetLine[] {
  const delimiter = delimiterOf(lines);
  const whole = delimiter === null ? lines : withoutBreaks(withoutStrokes(lines, delimiter));
  return whole.map((text) => ({
    text,
    cells: delimiter === null ? [text.trim()] : cellsOf(text, delimiter),
    isTaken: false,
  }));
}

function delimiterOf(lines: readonly string[]): string | null {
  const filled = lines.filter((line) => line.trim() !== '');
  // Numbers in aligned rows may contain commas.
  const isDivided = (line: string, delimiter: string): boolean =>
    line.split(delimiter).length >= MIN_CELLS && !(delimiter === ',' && /\S {2,}\S.* {2,}\S/.test(line));
  const counts = DELIMITERS.map((delimiter) => ({
    delimiter,
    lines: filled.filter((line) => isDivided(line, delimiter)).length,
  }));
  const [best] = counts.sort((a, b) => b.lines - a.lines);
  return best !== undefined && best.lines >= DIVIDED * filled.length ? best.delimiter : null;
}

/** Cells with a single stroke in the manner of a quote, at least: an open quote is in few. */
const MIN_STROKES = 5;

/** The lines with another mark for cells of a single stroke, which are no quotes. */
function withoutStrokes(lines: readonly string[], delimiter: string): readonly string[] {
  const mark = delimiter === '|' ? String.raw`\|` : delimiter;
  const stroke = new RegExp(String.raw`(?<=^|${mark})([^\S\t]*)"(?=[^\S\t]*(?:$|${mark}))`, 'g');
  const strokes = lines.reduce((sum, line) => sum + (line.includes('"') ? (line.match(stroke)?.length ?? 0) : 0), 0);
  return strokes < MIN_STROKES ? lines : lines.map((line) => line.replace(stroke, '$1〃'));
}

/** Lines between quotes that are one cell's, put together. */
function withoutBreaks(lines: readonly string[]): string[] {
  const whole: string[] = [];
  for (let i = 0; i < lines.length; i++) {
    let text = lines[i] ?? '';
    if (isOpen(text)) {
      const end = lines.slice(i + 1, i + 1 + MOST_QUOTED).findIndex((line) => isOpen(line));
      if (end >= 0) {
        text = lines.slice(i, i + 2 + end).join(' ');
        i += end + 1;
      }
    }
    whole.push(text);
  }
  return whole;
}

const isOpen = (text: string): boolean => (text.split('"').length - 1) % 2 === 1;

function cellsOf(text: string, delimiter: string): string[] {
  const trimmed = delimiter === '|' ? text.trim().replace(/^\||\|$/g, '') : text;
  const cells = trimmed.includes('"') ? (parseCsv(trimmed, delimiter)[0] ?? []) : trimmed.split(delimiter);
  return cells.map((cell) => cell.replace(/\s+/g, ' ').trim());
}

/** The cells of a line that hold anything. */
export function filledCells({ cells }: SheetLine): string[] {
  return cells.filter((cell) => cell !== '');
}

/** A table that is made of a sheet, its heading above it. */
export interface SheetTable {
  readonly heading: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** As above: `id.`, `dto.`, two strokes. */
const DITTO = /^(?:id(?:em)?\.?|di?t?to\.?|"|''|,,|[〃″]|-"-|–"–)$/i;

/** Whether a cell only says that it is as the one above. */
export function isDitto(cell: string): boolean {
  return DITTO.test(cell);
}

/** The rows of a table with ditto marks replaced by the value above. */
export function withoutDittos(rows: readonly (readonly string[])[]): readonly (readonly string[])[] {
  const above: string[] = [];
  return rows.map((row) =>
    row.map((cell, i) => {
      const said = DITTO.test(cell) ? (above[i] ?? cell) : cell;
      if (said !== '') above[i] = said;
      return said;
    }),
  );
}

/** The lines of a table, its cells set apart by tabs. */
export function linesOf({ heading, columns, rows }: SheetTable): string[] {
  const line = (cells: readonly string[]): string => cells.map((cell) => cell.replaceAll('\t', ' ')).join('\t');
  return ['', heading === '' ? 'table' : heading, line(columns), ...withoutDittos(rows).map(line)];
}
