import type { FieldLine } from './field-line.js';
import type { Kind } from './kind.js';

/** A clock, or a count of seconds or milliseconds since 1970 of the years 2017 to 2033. */
const HAS_CLOCK = /\d\s?(?:[:.h]|時|点|點|시)\s?\d{1,2}|^1[5-9]\d{8}(?:[.,]\d+)?$|^1[5-9]\d{11}$|^\d{8}[T_]\d{4}/;

/** The only time field of these records, where rows name theirs differently. */
export function timeNameOf(lines: readonly FieldLine[], timePaths: readonly string[]): Pick<Kind, 'timeName'> {
  const names = new Set(lines.map(({ fields }) => timePaths.find((path) => fields.has(path))));
  const [name] = names;
  return names.size === 1 && name !== undefined ? { timeName: name } : {};
}

/** The one column that holds the clocks of all rows: dates may stand in another. */
export function timeColumnOf(lines: readonly FieldLine[], timePaths: readonly string[]): Pick<Kind, 'timeColumn'> {
  const columns = new Set(
    lines.map(({ fields }) => timePaths.findLast((path) => HAS_CLOCK.test(fields.get(path) ?? ''))),
  );
  const [column] = columns;
  return columns.size === 1 && column !== undefined ? { timeColumn: column } : {};
}
