import { increment } from '../../../../model/index.js';
import { saysAsked } from '../lexicon/sides.js';
import type { Kind } from './kind.js';

/** Fraction of the kinds of row that state when they were asked for, in a table of jobs. */
const MOSTLY = 0.5;

/**
 * Columns that state for whatever a table reports when it was asked for: no event. In rows of a dither alone, such a
 * column is when a train was ready for it.
 */
export function askedColumns(kinds: readonly Kind[]): ReadonlySet<string> {
  const counts = new Map<string, number>();
  for (const { slots } of kinds)
    for (const { path, type } of slots)
      if (path !== null && type === 'clock' && saysAsked(path)) increment(counts, path);
  return new Set([...counts].flatMap(([path, count]) => (count >= MOSTLY * kinds.length ? [path] : [])));
}
