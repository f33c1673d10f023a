import { describe, expect, it } from 'vitest';
import { firstTrain, registerTrains } from '../../../src/stars/registration/index.js';
import { referenceOf, register, SAME_TRAIN } from '../../../src/stars/registration/register.js';
import { starListOf } from '../../../src/stars/registration/star-list.js';
import { poissonTail } from '../../../src/stars/registration/false-alarm.js';
import { cameraAt, drawn, randomOf, skyOf } from './drawn-sky.js';
import { clusterOf } from './clusters.js';

/** More for a slow check by hand: UNRELATED_PAIRS=1000 npx vitest run tests/stars/registration/unrelated.test.ts. */
const PAIRS = Number(process.env.UNRELATED_PAIRS ?? 15);
const camera = cameraAt({ x: 0, y: 0 }, 0, 0.683);

function listOf(seed: number, most: number) {
  const sky = seed % 5 === 0 ? clusterOf(seed) : skyOf(seed, 400);
  return starListOf(drawn(sky, { camera, random: randomOf(seed), most, strips: seed % 7 === 0 }));
}

describe('two unrelated fields', () => {
  it(`are never taken for one another: ${PAIRS} pairs, clusters and strips among them`, () => {
    const accepted: string[] = [];
    for (let pair = 0; pair < PAIRS; pair++) {
      const most = [12, 40, 150, 600, 2000][pair % 5] ?? 40;
      const a = listOf(5000 + 2 * pair, most);
      const b = listOf(5001 + 2 * pair + (pair % 2) * 4, most);
      if (register(referenceOf(a), b, SAME_TRAIN).state === 'registered') accepted.push(`frames ${pair}`);
      const expected = pair % 3 === 0 ? { scale: 1.25 } : {};
      // Two trains are laid on one another once a target: every fourth pair is enough for the quick run.
      if ((pair % 4 === 0 || PAIRS > 15) && registerTrains(firstTrain(a), b, expected).state === 'registered') {
        accepted.push(`trains ${pair}`);
      }
    }
    expect(accepted).toEqual([]);
  }, 600_000);
});

describe('the Poisson tail', () => {
  // P(K ≥ k) from tables of the Poisson distribution: 1 − e^−1·(1 + 1 + ½) = 0.0803; 1 − e^−2 = 0.8647.
  it('has its tabled values', () => {
    expect(poissonTail(1, 3)).toBeCloseTo(0.0803, 4);
    expect(poissonTail(2, 1)).toBeCloseTo(0.8647, 4);
    expect(poissonTail(0.5, 0)).toBe(1);
    expect(poissonTail(0, 2)).toBe(0);
  });

  it('is not rounded away where it is small: λ^k/k! leads', () => {
    expect(poissonTail(1e-3, 6) / (1e-18 / 720)).toBeCloseTo(1, 2);
  });
});
