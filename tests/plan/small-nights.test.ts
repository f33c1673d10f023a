/** Small nights as they are planned, from the question to the tidied way, against every way there is. */
import { describe, expect, it } from 'vitest';
import { openLines } from '../../src/plan/lines.js';
import { nightProblem } from '../../src/plan/night-problem.js';
import { planNights } from '../../src/plan/index.js';
import { worthOfWay } from '../../src/plan/problem.js';
import { solve } from '../../src/plan/solve.js';
import { tidied } from '../../src/plan/tidy.js';
import { itemAt } from '../../src/model/index.js';
import { inFull, some } from '../support/runs.js';
import { bestOfAll } from './all-ways.js';
import { smallNight } from './small-night.js';

const SEEDS = Array.from({ length: 60 }, (_, i) => i + 1);

describe('a small night', () => {
  it.each(some(SEEDS, 10))('is planned within a hundredth of the best of all ways, night %s', (seed) => {
    const asked = smallNight(seed, inFull(5, 4));
    const problem = nightProblem(itemAt(asked.nights, 0), openLines(asked.targets), asked);
    const best = bestOfAll(problem);
    const planned = worthOfWay(problem, tidied(problem, solve(problem).way));
    expect(planned).toBeLessThanOrEqual(best + 1e-9);
    expect(planned).toBeGreaterThanOrEqual(best * 0.99);
    // What the plan says of itself is no better than it is.
    const stated = itemAt(planNights(asked), 0).shortOfBest;
    expect(planned).toBeGreaterThanOrEqual(best * (1 - stated) - 1e-9);
  });
});
