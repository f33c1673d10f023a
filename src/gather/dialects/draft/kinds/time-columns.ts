import type { FieldLine } from './field-line.js';
import type { Kind } from './kind.js';

const HAS_CLOCK = /\d\s?(?:[:.h]|時|点|點|시)\s?\d{1,2}/;

/** The one field that all of these have their time in, where rows name theirs differently. */
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
