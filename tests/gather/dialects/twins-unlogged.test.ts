import { describe, expect, it } from 'vitest';
import type { Decoded } from '../../../src/gather/dialects/draft/classify/decode.js';
import { againstValues, priorOf } from '../../../src/gather/dialects/draft/classify/priors.js';
import { together } from '../../../src/gather/dialects/draft/classify/together.js';
import { kindLike, kindsOf, rounds, type Line } from './support/kinds.js';

const kinds = kindsOf(
  rounds(8, 900, (from, i): Line[] => [
    [from, 'zof skelt'],
    [from + 5, 'rin skelt'],
    [from + 9, `zof drobe ${['Ha', 'L'][i % 2]}`],
    [from + 19, `zof tarve Ha`],
    ...(i === 3 ? [[from + 29, 'rin drobe L'] as const] : []),
  ]),
);

describe('what two trains say in words that nobody knows', () => {
  it('is nothing that the mount does for both, and may well be that each waits', () => {
    const [alone, twin] = [false, true].map((isTwin) => priorOf(kindLike(kinds, 'zof skelt'), 60, undefined, isTwin));
    expect(alone?.has('dither-begin')).toBe(true);
    expect([...(twin?.keys() ?? [])].filter((event) => /^(?:slew|dither-begin|settling|guiding)/.test(event))).toEqual(
      [],
    );
    expect(twin?.get('dither-ready')).toBeGreaterThan(alone?.get('dither-ready') ?? Infinity);
  });

  it('is the same for the one that says it once', () => {
    const [often, once] = [kindLike(kinds, 'zof drobe'), kindLike(kinds, 'rin drobe')];
    const decoded: Decoded = { ranking: [['filter-begin', 1.2]], fit: 0.9, rival: Infinity };
    const merged = together(
      new Map([
        [often, decoded],
        [once, { ranking: [], fit: 0, rival: Infinity }],
      ]),
      [[often, once]],
    );
    expect(merged.get(once)).toBe(decoded);
    expect(merged.get(often)).toBe(decoded);
  });
});

it('takes a line that names the same filter over and over for no turning wheel', () => {
  expect(againstValues(kindLike(kinds, 'zof drobe'), 'filter-end', 60)).toBe(0);
  expect(againstValues(kindLike(kinds, 'zof tarve'), 'filter-end', 60)).toBeLessThan(-0.5);
});
