import { groupBy } from '../../../../model/index.js';
import { stateWord, takesTurns } from './binary-states.js';
import type { FieldLine } from './field-line.js';
import type { PathFacts } from './message-path.js';

/**
 * Maximum number of values of a field with state digits; minimum fraction of records that have it, and of those it
 * distinguishes.
 */
const MOST_STATES = 8;
const HAVE_STATE = 0.5;
const DISTINGUISHED = 0.4;

/** A field with state digits or edges, `0->1`, that alternate while the other fields are identical. */
export function statePaths(
  facts: readonly PathFacts[],
  telling: readonly string[],
  lines: readonly FieldLine[],
): string[] {
  const found = facts.filter(
    ({ path, count, values }) =>
      !telling.includes(path) &&
      count >= HAVE_STATE * lines.length &&
      values.size <= MOST_STATES &&
      [...values.keys()].filter((value) => stateWord(value) !== null).length >= 2,
  );
  const groups = found.length === 0 ? [] : [...groupBy(lines, ({ fields }) => valuesOf(fields, telling)).values()];
  const best = found.find(({ path }) => {
    const turning = groups.filter((own) => takesTurns(own.map(({ fields }) => fields.get(path) ?? '')));
    return turning.reduce((sum, own) => sum + own.length, 0) >= DISTINGUISHED * lines.length;
  });
  return best === undefined ? [] : [best.path];
}

/** The values of these fields, as one text. */
export function valuesOf(fields: ReadonlyMap<string, string>, paths: readonly string[]): string {
  return paths.map((path) => fields.get(path) ?? '').join('\0');
}

/** Pairs of adjacent state fields with the same values: one holds the state left, the other the state entered. */
export function statePairs(facts: readonly PathFacts[], telling: readonly string[]): [string, string][] {
  return telling.flatMap((path, i): [string, string][] => {
    const front = telling[i - 1];
    const own = facts.find((one) => one.path === path)?.values;
    const before = facts.find((one) => one.path === front)?.values;
    if (front === undefined || own === undefined || before === undefined || own.size < 3) return [];
    const shared = [...own.keys()].filter((value) => before.has(value)).length;
    return shared >= 0.6 * Math.max(own.size, before.size) ? [[front, path]] : [];
  });
}
