/** How the rows of a log are split, and its column names. */
export interface CsvLayout {
  readonly delimiter: string;
  readonly columns: readonly string[];
  /** Index of the header row among the lines; −1 when the log has none and the names were generated. */
  readonly headerIndex: number;
  /** Start positions of fixed-width columns, characters from 0. */
  readonly starts?: readonly number[];
  /** Columns of which several may be filled, each cell a message of its own. */
  readonly each?: readonly string[];
  /** What stands between several messages in such a cell. */
  readonly between?: string | null;
}
