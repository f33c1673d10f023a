import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/outlook/random.js';
import { Largest } from '../../src/plan/largest.js';

interface Item {
  readonly size: number;
  readonly place: number;
}

/** Sizes of which many are alike: what is as large must stand as it was added. */
function items(seed: number, count: number, sizes: number): Item[] {
  const random = seededRandom(seed);
  return Array.from({ length: count }, (_, place) => ({ size: Math.floor(random() * sizes), place }));
}

describe('the largest of many', () => {
  it.each([
    [1, 2000, 1_000_000],
    [2, 2000, 40],
    [3, 500, 1],
    [4, 10, 5],
    [5, 0, 5],
  ])('are those that sorting all of them puts first, in its order (%s)', (seed, count, sizes) => {
    const all = items(seed, count, sizes);
    const largest = new Largest<Item>(12, ({ size }) => size);
    let refused = 0;
    for (const item of all)
      if (largest.mayHold(item.size)) largest.add(item);
      else refused++;
    const sorted = all.toSorted((a, b) => b.size - a.size);
    expect(largest.sorted().slice(0, 12)).toEqual(sorted.slice(0, 12));
    // Most need not be added at all.
    if (sizes > count && count > 1000) expect(refused).toBeGreaterThan(count / 2);
  });
});
