/**
 * A line taken apart into named cells: a row of a CSV log by its columns, or a record (JSON, `key=value`, tags) by
 * the paths of its fields.
 */
export interface RowSource {
  /** The time stands in cells, not in a stamp of the line. */
  readonly timeInCells: boolean;
  /** Whether the line is a header row; the columns are then as it names them. */
  takeHeader(text: string): boolean;
  /** Takes a line apart. @returns `false` when it is no row or record, or lacks a cell that its time needs */
  takeRow(text: string): boolean;
  /** Whether the row may have a cell of that name: of several tables not all have it. */
  has(name: string): boolean;
  /** The current cell of that name, `undefined` when it is empty or not there. */
  cell(name: string): string | undefined;
  /** The current row's time, from the cells that state it. */
  time(): string;
}
