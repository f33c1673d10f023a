/** A record or row: its fields by path or column, the number of its line, its time in ms or NaN. */
export interface FieldLine {
  readonly fields: ReadonlyMap<string, string>;
  readonly line: number;
  readonly atMs: number;
  /** The times in ms that other fields hold in the form of the row's own. */
  readonly timesMs?: ReadonlyMap<string, number>;
}

/** The names of a record's fields. */
export function shapeOf(fields: ReadonlyMap<string, string>, timePaths: readonly string[]): string {
  return [...fields.keys()].filter((path) => !timePaths.includes(path)).join('\0');
}

/** The names of the fields of records or rows, those of their times left out. */
export function pathsOf(lines: readonly FieldLine[], timePaths: readonly string[]): string[] {
  const paths = new Set(lines.flatMap(({ fields }) => [...fields.keys()]));
  return [...paths].filter((path) => !timePaths.includes(path));
}

/** The fields of a record in short, its time left out. */
export function recordText(fields: ReadonlyMap<string, string>, timePaths: readonly string[]): string {
  return [...fields]
    .filter(([path]) => !timePaths.includes(path))
    .map(([path, value]) => `${path}=${value}`)
    .join(' ');
}

/** Of the fields with times those that hold the lines' own: the rest holds others, where each line has its first. */
export function ownTimes(lines: readonly FieldLine[], timePaths: readonly string[]): readonly string[] {
  return timePaths.filter((path) => !lines.some(({ timesMs }) => timesMs?.has(path)));
}
