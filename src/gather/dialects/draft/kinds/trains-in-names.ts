import { countOf, increment } from '../../../../model/index.js';
import { isTelling } from '../lexicon/said.js';
import type { Kind } from './kind.js';

/** Minimum number of values that both trains have. */
const MIN_SHARED = 3;
const PARTS = /[/._]+/;

/**
 * The two trains of a long table of names and values: `cierzo/heron/camera/state` and `cierzo/wren/camera/state` differ
 * in one part, and so do other names. `null` if no two do.
 */
export function trainsInNames(kinds: readonly Kind[]): readonly [string, string] | null {
  const names = [...new Set(kinds.flatMap(({ valueName }) => valueName ?? []))];
  const parts = names.map((name) => name.split(PARTS));
  const shared = new Map<string, number>();
  for (const [i, own] of parts.entries())
    for (const other of parts.slice(i + 1)) {
      const pair = differing(own, other);
      if (pair !== null) increment(shared, pair.join('\0'));
    }
  const [best] = [...shared.keys()].sort((a, b) => countOf(shared, b) - countOf(shared, a));
  const [one, other] = best?.split('\0') ?? [];
  return best === undefined || one === undefined || other === undefined || countOf(shared, best) < MIN_SHARED
    ? null
    : [one, other];
}

/** The only part in which two names differ, in alphabetical order; `null` if there are more, or it tells something. */
function differing(own: readonly string[], other: readonly string[]): readonly [string, string] | null {
  if (own.length !== other.length) return null;
  const at = own.flatMap((part, i) => (part === other[i] ? [] : [i]));
  const [a, b] = [own[at[0] ?? -1], other[at[0] ?? -1]];
  if (at.length !== 1 || a === undefined || b === undefined || isTelling(a) || isTelling(b)) return null;
  return a < b ? [a, b] : [b, a];
}
