import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sum } from '../../src/model/index.js';
import { cheapestOrder } from '../../src/worth/one-after-another.js';

describe('users of time one after the other', () => {
  it('take the slots that cost them least', () => {
    // Two slots of ten; the second user must not have the second one.
    const order = cheapestOrder(
      [
        [10, 0],
        [0, 10],
      ],
      (user, slot) => (user === 1 && slot === 1 ? 5 : 1),
    );
    expect(order).toEqual({
      users: [1, 0],
      amounts: [
        [0, 10],
        [10, 0],
      ],
      cost: 20,
    });
  });

  it('keep every sum, and cost no more than any order tried by hand', () => {
    const users = fc.integer({ min: 2, max: 8 });
    fc.assert(
      fc.property(
        users,
        fc.integer({ min: 1, max: 6 }),
        fc.infiniteStream(fc.integer({ min: 0, max: 9 })),
        (n, slots, draw) => {
          const next = (): number => draw.next().value;
          const rows = (): number[][] => Array.from({ length: n }, () => Array.from({ length: slots }, next));
          const [taken, costs] = [rows(), rows()];
          const cost = (user: number, slot: number): number => costs[user]?.[slot] ?? NaN;
          const order = cheapestOrder(taken, cost);
          expect(order.amounts.map(sum)).toEqual(taken.map(sum));
          for (let slot = 0; slot < slots; slot++)
            expect(sum(order.amounts.map((row) => row[slot] ?? NaN))).toBe(sum(taken.map((row) => row[slot] ?? NaN)));
          expect([...order.users].sort()).toEqual(taken.map((_, i) => i));
          // No two neighbours do better the other way round.
          const asIs = cheapestOrder([...order.amounts], cost);
          expect(asIs.cost).toBe(order.cost);
        },
      ),
      { numRuns: 100 },
    );
  });
});
