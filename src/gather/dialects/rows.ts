/**
 * A line split into named cells: a row of a CSV log by its columns, or a record (JSON, `key=value`, tags) by the paths
 * of its fields.
 */
export interface RowSource {
  /** The time is in cells, not in a stamp of the line. */
  readonly timeInCells: boolean;
  /** Whether the line is a header row; if so, its columns are adopted. */
  takeHeader(text: string): boolean;
  /** Splits a line. @returns `false` when it is not a row or record, or lacks a cell needed for its time */
  takeRow(text: string): boolean;
  /** Whether the row may have a cell of that name: not every one of several tables has it. */
  has(name: string): boolean;
  /** The current cell of that name, `undefined` when it is empty or missing. */
  cell(name: string): string | undefined;
  /** The current row's time, from its time cells. */
  time(): string;
}
