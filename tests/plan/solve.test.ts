import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/outlook/random.js';
import type { Choice, Problem } from '../../src/plan/problem.js';
import { solve } from '../../src/plan/solve.js';
import { some } from '../support/runs.js';
import { bestOfAll } from './all-ways.js';

/** A random night small enough that every way through it can be tried. */
function randomNight(seed: number, slots = 5, mostLacking = 1.8, mostChoices = 9): Problem {
  const random = seededRandom(seed);
  const targets = 2;
  const lacking = Array.from({ length: targets * 2 }, () => 0.2 + mostLacking * random());
  const lines = (target: number) => [
    { line: target * 2, filter: 'Ha' },
    { line: target * 2 + 1, filter: 'L' },
  ];
  const choices: Choice[] = [{ target: -1, picks: [null, null] }];
  for (let target = 0; target < targets; target++)
    for (const first of [...lines(target), null])
      for (const second of lines(target))
        if (choices.length < mostChoices) choices.push({ target, picks: [first, second] });
  return {
    choices,
    lacking,
    lost: { target: 0.15, filter: 0.05, partner: 0.03 },
    effort: { target: 0.12, filter: 0.04, hour: [0.03, 0.02] },
    full: choices.map(({ picks }) => picks.map((pick) => (pick ? 0.5 + 0.1 * pick.line : 0))),
    slots: Array.from({ length: slots }, () => {
      const up = Array.from({ length: targets }, () => random() > 0.2);
      const worth = lacking.map(() => random());
      return {
        hours: 0.5,
        flips: Array.from({ length: targets }, () => (random() > 0.8 ? 0.1 : 0)),
        values: choices.map(({ target, picks }) =>
          picks.map((pick) => (pick && up[target] === true ? (worth[pick.line] ?? 0) : 0)),
        ),
        rates: choices.map(({ picks }) => picks.map((_, train) => (train === 0 ? 0.85 : 0.8))),
      };
    }),
  };
}

const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);

describe('solve', () => {
  it.each(some(SEEDS, 6))('comes within a hundredth of the best of all ways, night %s', (seed) => {
    const problem = randomNight(seed);
    const best = bestOfAll(problem);
    const { value, bound } = solve(problem);
    expect(value).toBeLessThanOrEqual(best + 1e-9);
    expect(value).toBeGreaterThanOrEqual(best * 0.99);
    expect(bound).toBeGreaterThanOrEqual(best - 1e-9);
  });

  it.each(some(SEEDS.slice(0, 20), 4))(
    'does so where every line is nearly full and each train may rest, night %s',
    (seed) => {
      const problem = randomNight(seed, 5, 0.4, 13);
      const best = bestOfAll(problem);
      const { value, bound } = solve(problem);
      expect(value).toBeLessThanOrEqual(best + 1e-9);
      expect(value).toBeGreaterThanOrEqual(best * 0.99);
      expect(bound).toBeGreaterThanOrEqual(best - 1e-9);
    },
  );

  it('proves a small night: what it falls short of the best by is nothing', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const { value, bound } = solve(randomNight(seed, 4));
      expect(1 - value / bound).toBeLessThan(0.003);
    }
  });

  it('rests where nothing is up', () => {
    const problem = randomNight(1);
    const slots = problem.slots.map((slot) => ({ ...slot, values: slot.values.map((row) => row.map(() => 0)) }));
    expect(solve({ ...problem, slots }).value).toBe(0);
  });
});
