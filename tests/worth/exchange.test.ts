import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sum } from '../../src/model/index.js';
import { cheapest, type Allocation } from '../../src/worth/exchange.js';

type Costs = readonly (readonly number[])[];

const total = (amounts: Allocation, costs: Costs): number =>
  sum(amounts.flatMap((row, user) => row.map((amount, slot) => amount * (costs[user]?.[slot] ?? 0))));

/** Slots of one unit each, given to the users in turn as told. */
function unitSlots(owners: readonly number[], users: number): number[][] {
  return Array.from({ length: users }, (_none, user) => owners.map((owner) => (owner === user ? 1 : 0)));
}

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((item, i) =>
    permutations([...items.slice(0, i), ...items.slice(i + 1)]).map((rest) => [item, ...rest]),
  );
}

const problem = fc.record({
  owners: fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 1, maxLength: 6 }),
  costs: fc.array(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 6, maxLength: 6 }), {
    minLength: 3,
    maxLength: 3,
  }),
});

describe('the cheapest allocation', () => {
  it('costs as little as the best of all orders', () => {
    fc.assert(
      fc.property(problem, ({ owners, costs }) => {
        const best = Math.min(...permutations(owners).map((order) => total(unitSlots(order, 3), costs)));
        expect(
          total(
            cheapest(unitSlots(owners, 3), (user, slot) => costs[user]?.[slot] ?? 0),
            costs,
          ),
        ).toBeCloseTo(best, 6);
      }),
      { numRuns: 60 },
    );
  });

  it('leaves every slot and every user what they had', () => {
    const amounts = fc.array(fc.array(fc.integer({ min: 0, max: 300_000 }), { minLength: 8, maxLength: 8 }), {
      minLength: 4,
      maxLength: 4,
    });
    const costs = fc.array(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 8, maxLength: 8 }), {
      minLength: 4,
      maxLength: 4,
    });
    fc.assert(
      fc.property(amounts, costs, (start, cost) => {
        const out = cheapest(start, (user, slot) => cost[user]?.[slot] ?? 0);
        expect(out.map(sum)).toEqual(start.map(sum));
        for (let slot = 0; slot < 8; slot++)
          expect(sum(out.map((row) => row[slot] ?? 0))).toBe(sum(start.map((row) => row[slot] ?? 0)));
        expect(out.flat().every((amount) => amount >= 0 && Number.isInteger(amount))).toBe(true);
        expect(total(out, cost)).toBeLessThanOrEqual(total(start, cost) + 1e-3);
      }),
      { numRuns: 60 },
    );
  });

  it('changes nothing where nothing can be won', () => {
    const start = unitSlots([0, 1, 2, 1, 0], 3);
    expect(cheapest(start, () => 0.5)).toEqual(start);
    expect(cheapest(start, (user) => user)).toEqual(start);
  });

  it('finds rounds of three', () => {
    // Everyone would rather have the next one's slot; no two would both gain.
    const costs = [
      [1, 0, 2],
      [2, 1, 0],
      [0, 2, 1],
    ];
    expect(cheapest(unitSlots([0, 1, 2], 3), (user, slot) => costs[user]?.[slot] ?? 0)).toEqual([
      [0, 1, 0],
      [0, 0, 1],
      [1, 0, 0],
    ]);
  });

  it('copes with none', () => {
    expect(cheapest([], () => 0)).toEqual([]);
    expect(cheapest([[]], () => 0)).toEqual([[]]);
  });
});
