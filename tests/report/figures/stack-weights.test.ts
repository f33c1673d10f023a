import { describe, expect, it } from 'vitest';
import { stackWeights } from '../../../src/report/figures/stack-weights.js';
import type { FrameStars, Night } from '../../../src/model/index.js';
import { altered } from '../../support/altered.js';
import { starryNight } from '../../support/starry-night.js';

type Light = Night['accounts']['lights'][number];

const isLikeFirst = (first: Light) => (light: Light) =>
  light.train === first.train && light.target === first.target && light.filter === first.filter;

/** A night of one group of kept lights; stars and frames unlike a clear one by their place. */
function groupOf(
  starsOf: (index: number) => Partial<FrameStars> | undefined,
  change = (light: Light, _i: number) => light,
) {
  const whole = starryNight('twin-night');
  const first = whole.accounts.lights[0];
  if (first === undefined) throw new Error('no lights');
  const places = whole.accounts.lights.flatMap((light, i) => (isLikeFirst(first)(light) ? [i] : []));
  const night = starryNight('twin-night', (i) => starsOf(places.indexOf(i)));
  const lights = places.flatMap((place, i) => {
    const light = night.accounts.lights[place];
    return light === undefined ? [] : [change({ ...light, verdict: 'kept', causes: [] }, i)];
  });
  return { lights, weights: stackWeights(altered(night, { accounts: { lights } })) };
}

describe('weights for stacking', () => {
  it('are inverse variances at the same starlight: half the light or twice the noise is a quarter of the weight', () => {
    // Inverse variance of a frame scaled by 1/τ: (τ/σ)² (Merline & Howell 1995, sky-limited; reference formulas).
    const { lights, weights } = groupOf((i) => (i === 1 ? { flux: 0.5 } : i === 2 ? { noise: 24 } : {}));
    const of = (i: number): number | undefined => weights.get(lights[i]?.id ?? '');
    expect([of(0), of(1), of(2)]).toEqual([1, 0.25, 0.25]);
  });

  it('are nothing for lost frames, whose light sets no measure, and absent without a file', () => {
    const { lights, weights } = groupOf(
      (i) => (i === 0 ? { flux: 4 } : {}),
      (light, i) => (i === 0 ? { ...light, verdict: 'lost' } : i === 1 ? { ...light, file: undefined } : light),
    );
    expect(weights.get(lights[0]?.id ?? '')).toBe(0);
    expect(weights.has(lights[1]?.id ?? '')).toBe(false);
    expect(weights.get(lights[2]?.id ?? '')).toBe(1);
  });

  it('are of one measure in a group: where one frame has no flux, none is weighed by the pixels', () => {
    const { lights, weights } = groupOf((i) => (i === 0 ? { flux: null } : i === 1 ? { flux: 0.5 } : {}));
    expect(weights.get(lights[1]?.id ?? '') ?? 1).not.toBe(0.25);
  });
});
