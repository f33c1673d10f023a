import type { FieldLine } from './field-line.js';
import type { Slot } from './kind.js';
import { isSpan, isSpeltLength } from './values.js';

/** Whether a slot holds durations with their units, which a formula reads with `duration`. */
export function isSpelt({ isSpelt: known, values }: Slot): boolean {
  return known === true || values.some(isSpan);
}

/**
 * The columns with durations in units as they come, `14 s` on one row and `2 min 41 s` on another: the rows of a kind
 * may all happen to be shorter than a minute, yet all of the column are read alike.
 */
export function speltColumns(lines: readonly FieldLine[], timePaths: readonly string[]): ReadonlySet<string> {
  const several = new Set<string>();
  const others = new Set<string>(timePaths);
  for (const { fields } of lines)
    for (const [path, value] of fields) {
      if (value === '' || others.has(path)) continue;
      if (!isSpeltLength(value)) others.add(path);
      else if (isSpan(value)) several.add(path);
    }
  return new Set([...several].filter((path) => !others.has(path)));
}
