/** A record or row: its fields by path or column, its line number, and its time in ms or NaN. */
export interface FieldLine {
  readonly fields: ReadonlyMap<string, string>;
  readonly line: number;
  readonly atMs: number;
  /** The times in ms in other fields that have the same format as the row's own. */
  readonly timesMs?: ReadonlyMap<string, number>;
}

/** How the fields of a log's records, or the cells of its rows, are read. */
export interface FieldForm {
  /** The fields with the records' own times. */
  readonly timePaths: readonly string[];
  readonly decimalComma: boolean;
}

/** The names of a record's fields. */
export function shapeOf(fields: ReadonlyMap<string, string>, timePaths: readonly string[]): string {
  return [...fields.keys()].filter((path) => !timePaths.includes(path)).join('\0');
}

/** The names of the fields of records or rows, without time fields. */
export function pathsOf(lines: readonly FieldLine[], timePaths: readonly string[]): string[] {
  const paths = new Set(lines.flatMap(({ fields }) => [...fields.keys()]));
  return [...paths].filter((path) => !timePaths.includes(path));
}

/** A summary of a record's fields, without its time. */
export function recordText(fields: ReadonlyMap<string, string>, timePaths: readonly string[]): string {
  return [...fields]
    .filter(([path]) => !timePaths.includes(path))
    .map(([path, value]) => `${path}=${value}`)
    .join(' ');
}

/** The time fields that hold the lines' own times; the others hold further times. */
export function ownTimes(lines: readonly FieldLine[], timePaths: readonly string[]): readonly string[] {
  return timePaths.filter((path) => !lines.some(({ timesMs }) => timesMs?.has(path)));
}
