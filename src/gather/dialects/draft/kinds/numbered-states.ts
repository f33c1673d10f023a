import type { FieldLine } from './field-line.js';

/** Minimum number of times that a number rises while the state stays, and fraction of rows that have one with it. */
const MIN_RISES = 4;
const NEARLY_ALL = 0.95;
/** What goes on in nearly all rows is no state among others. */
const MOST = 0.95;
const NUMBER = /^\d{1,7}$/;

/**
 * The columns that number what goes on in a state: filled while a device is in it, and rising where the next begins at
 * once. In rows written each minute, nothing else tells one exposure from the next.
 *
 * @param columns of states
 * @returns by column of states
 */
export function numbersOfStates(
  lines: readonly FieldLine[],
  columns: readonly string[],
): ReadonlyMap<string, { readonly state: string; readonly path: string }> {
  const paths = new Set(lines.slice(0, 200).flatMap(({ fields }) => [...fields.keys()]));
  for (const column of columns) paths.delete(column);
  const found = new Map<string, { state: string; path: string }>();
  for (const path of paths) {
    const rows = lines.filter(({ fields }) => (fields.get(path) ?? '') !== '');
    if (rows.length < 2 * MIN_RISES || !rows.every(({ fields }) => NUMBER.test(fields.get(path) ?? ''))) continue;
    const [best] = columns
      .filter((column) => !found.has(column))
      .map((column) => {
        const [state, filled] = commonest(rows.map(({ fields }) => fields.get(column) ?? ''));
        const own = lines.filter(({ fields }) => fields.get(column) === state).length;
        return { column, state, share: filled * Math.min(1, rows.length / own, own / rows.length), own };
      })
      .sort((a, b) => b.share - a.share);
    if (best === undefined || best.state === '' || best.share < NEARLY_ALL) continue;
    if (best.own >= MOST * lines.length || rises(lines, best.column, path) < MIN_RISES) continue;
    found.set(best.column, { state: best.state, path });
  }
  return found;
}

function commonest(values: readonly string[]): readonly [value: string, share: number] {
  const counts = new Map<string, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  const [value = '', count = 0] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? [];
  return [value, count / Math.max(1, values.length)];
}

/** How often the number rises by one from row to row in the same state; −1 if it ever does otherwise there. */
function rises(lines: readonly FieldLine[], column: string, path: string): number {
  let count = 0;
  for (const [i, { fields }] of lines.entries()) {
    const before = lines[i - 1]?.fields;
    if (before === undefined || before.get(column) !== fields.get(column)) continue;
    const by = Number(fields.get(path) ?? NaN) - Number(before.get(path) ?? NaN);
    if (by !== 0 && by !== 1 && !Number.isNaN(by)) return -1;
    if (by === 1) count++;
  }
  return count;
}
