import { parseCsv } from '../lines/csv-library.js';
import { BLANKS, setInColumns } from './blank-columns.js';
import { cellText } from './empty-cells.js';
import { cutAt } from './fixed-columns.js';
import type { CsvRules } from './compiled.js';
import type { RowSource } from './rows.js';

/** A message of a row that holds several: its column, and its text where the cell holds more. */
export interface CellPart {
  readonly column: string;
  readonly text: string;
}

/** The columns of a CSV log and the cells of its current row. */
export class CsvRows implements RowSource {
  readonly timeInCells = true;
  private columns: ReadonlyMap<string, number> | null;
  private cells: readonly string[] = [];
  /** The only message in the columns of `each` that the row shows; `null`: all of them. */
  private shown: CellPart | null = null;

  /** @param carries rows with empty time cells have the time of the row above */
  constructor(
    private readonly rules: CsvRules,
    private readonly carries = false,
  ) {
    this.columns = rules.columns === null ? null : indexOf(rules.columns);
  }

  /** Whether the line is the header row; if so, its columns are adopted. */
  takeHeader(text: string): boolean {
    const { header } = this.rules;
    const [firstName] = header ?? [];
    if (header === null || firstName === undefined || !text.includes(firstName)) return false;
    const names = this.split(text).map((name) => name.trim());
    if (!header.every((name) => names.includes(name))) return false;
    this.columns = indexOf(names);
    return true;
  }

  /** Splits a row. @returns `false` before the header row, or when the line has fewer cells than the time needs */
  takeRow(text: string): boolean {
    if (this.columns === null) return false;
    this.shown = null;
    this.cells = this.split(text);
    return (
      this.hasTime() || (this.carries && this.cells.length > 1 && this.cells.some((cell) => cellText(cell) !== ''))
    );
  }

  private hasTime(): boolean {
    const { time, timeIsFirst } = this.rules;
    const isFilled = (name: string): boolean => this.cell(name) !== undefined;
    return timeIsFirst ? time.some(isFilled) : time.every(isFilled);
  }

  has(column: string): boolean {
    return this.columns?.has(column) === true;
  }

  /** The current row's cell in a column, `undefined` when it is empty. */
  cell(column: string): string | undefined {
    const { shown } = this;
    if (shown !== null && this.rules.each.includes(column)) return shown.column === column ? shown.text : undefined;
    const index = this.columns?.get(column);
    const text = index === undefined ? '' : cellText(this.cells[index] ?? '');
    return text === '' ? undefined : text;
  }

  /** The messages that are rows of their own; empty if the row is one. */
  parts(): readonly CellPart[] {
    const { each, between } = this.rules;
    const parts = each.flatMap((column): CellPart[] => {
      const cell = this.cell(column) ?? '';
      const texts = between === null ? [cell] : cell.split(between).map((text) => text.trim());
      return texts.filter((text) => text !== '').map((text) => ({ column, text }));
    });
    return parts.length > 1 ? parts : [];
  }

  /** From now on the row has this message only, of the columns in `each`; `null`: all of them. */
  lookAt(part: CellPart | null): void {
    this.shown = part;
  }

  /** The current row's time: its columns joined by a blank, or the first of them that is filled. */
  time(): string {
    if (this.carries && !this.hasTime()) return '';
    const cells = this.rules.time.map((name) => this.cell(name) ?? '');
    return this.rules.timeIsFirst ? (cells.find((cell) => cell !== '') ?? '') : cells.join(' ');
  }

  private split(text: string): readonly string[] {
    const { delimiter, quote, starts } = this.rules;
    if (starts !== null) return cutAt(text, starts);
    if (delimiter === BLANKS) return setInColumns(text);
    if (!text.includes(quote)) return text.split(delimiter);
    return parseCsv(text, delimiter, quote)[0] ?? [];
  }
}

/** Positions by name; the first of several columns with the same name wins. */
function indexOf(names: readonly string[]): ReadonlyMap<string, number> {
  const index = new Map<string, number>();
  names.forEach((name, i) => {
    if (!index.has(name)) index.set(name, i);
  });
  return index;
}
