import { groupBy } from '../../../../model/index.js';
import type { FieldLine } from './field-line.js';

/** Minimum fraction of records that continue from the previous one, and the minimum ratio to the other direction. */
const GOES_ON = 0.6;
const MUCH_MORE = 3;

/**
 * The fields in logical order: if a record names the state entered before the state left, as in `state: exposing, was:
 * idle`, the two are swapped. Inferred from the records of each device: each leaves the state that the previous one
 * entered.
 *
 * @param pairs fields with the adjacent fields that have the same values
 */
export function leftFirst(
  telling: readonly string[],
  pairs: readonly (readonly [string, string])[],
  lines: readonly FieldLine[],
): string[] {
  const ordered = [...telling];
  for (const [front, behind] of pairs) {
    const own = lines.filter(({ fields }) => fields.has(front) && fields.has(behind));
    const devices = [null, ...telling.filter((path) => path !== front && path !== behind)];
    const isTurned = devices.some((device) => {
      const backwards = goingOn(own, device, front, behind);
      return backwards >= GOES_ON && backwards > MUCH_MORE * goingOn(own, device, behind, front);
    });
    if (!isTurned) continue;
    const at = ordered.indexOf(front);
    ordered.splice(at, 1);
    ordered.splice(ordered.indexOf(behind) + 1, 0, front);
  }
  return ordered;
}

/** The fraction of records that leave the state the previous record of the device entered. */
function goingOn(lines: readonly FieldLine[], device: string | null, entered: string, left: string): number {
  let all = 0;
  let following = 0;
  for (const own of groupBy(lines, ({ fields }) => (device === null ? '' : (fields.get(device) ?? ''))).values())
    for (let i = 1; i < own.length; i++) {
      all++;
      if (own[i]?.fields.get(left) === own[i - 1]?.fields.get(entered)) following++;
    }
  return all === 0 ? 0 : following / all;
}
