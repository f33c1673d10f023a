/** An absent value does not become a number or a text to keep the compiler quiet. */
import { describe, expect, it } from 'vitest';
import { readSource, sourceFiles } from './imports.js';

/**
 * How many there are of each, the reading of strangers' logs aside. A column of numbers that has NaN for what is not
 * measured and an empty text in what is put together are honest; most of the others could hide a fault. The figures
 * only go down.
 */
const MOST = { NaN: 22, "''": 104 } as const;

describe('defaults of absent values', () => {
  it.each(Object.entries(MOST))('?? %s: no more than there are', (value, most) => {
    const found = sourceFiles().flatMap((file) => {
      if (file.startsWith('gather/dialects/')) return [];
      const count = readSource(file).split(`?? ${value}`).length - 1;
      return count === 0 ? [] : [{ file, count }];
    });
    const all = found.reduce((sum, { count }) => sum + count, 0);
    expect(all, JSON.stringify(found)).toBeLessThanOrEqual(most);
  });
});
