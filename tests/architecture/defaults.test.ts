/** An absent value does not become a number or a text to keep the compiler quiet. */
import { describe, expect, it } from 'vitest';
import { readSource, sourceFiles } from './imports.js';

/**
 * How many there are of each, the reading of strangers' logs aside. An empty text in what is put together, a target or
 * filter without a name, and 0 for what was never counted are honest; most of the others could hide a fault. Counts in
 * a Map go through `increment` and `countOf`, an item of a list beside another through `itemAt`, sums of what is partly
 * known through `sumOfKnown`. The figures only go down.
 */
const MOST = [
  ['NaN', /\?\? NaN\b/g, 0],
  ["''", /\?\? ''/g, 79],
  ['0', /\?\? 0(?![\w.])/g, 81],
] as const;

/** Stages in which no absent value becomes 0, '' or NaN. A stage joins the list when its last default goes. */
const FREE: readonly string[] = ['plan/', 'sky/', 'vocabulary/'];

const sources = sourceFiles().filter((file) => !file.startsWith('gather/dialects/'));

describe('defaults of absent values', () => {
  it.each(MOST)('?? %s: no more than there are', (_value, pattern, most) => {
    const found = sources.flatMap((file) => {
      const count = readSource(file).match(pattern)?.length ?? 0;
      return count === 0 ? [] : [{ file, count }];
    });
    const all = found.reduce((sum, { count }) => sum + count, 0);
    expect(all, JSON.stringify(found)).toBeLessThanOrEqual(most);
  });

  it.each(FREE)('%s has none', (stage) => {
    const own = sources.filter((file) => file.startsWith(stage));
    expect(own.length).toBeGreaterThan(0);
    expect(own.filter((file) => MOST.some(([, pattern]) => readSource(file).search(pattern) >= 0))).toEqual([]);
  });
});
