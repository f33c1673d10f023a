/**
 * The layout of a record in the archive: a line for each field, and in lists a line for each item, so that files stay
 * small and diffs are readable.
 */

/** JSON with one line per item of the lists at the top. */
export function recordText(record: object): string {
  const fields = Object.entries(record).flatMap(([key, value]: [string, unknown]) =>
    value === undefined ? [] : [`${JSON.stringify(key)}:${valueText(value)}`],
  );
  return `{\n${fields.join(',\n')}\n}\n`;
}

function valueText(value: unknown): string {
  if (!Array.isArray(value) || value.length === 0) return JSON.stringify(value);
  return `[\n${value.map((item) => JSON.stringify(item) ?? 'null').join(',\n')}\n]`;
}
