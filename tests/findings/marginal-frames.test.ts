import { describe, expect, it } from 'vitest';
import { marginalFrames } from '../../src/findings/marginal-frames.js';
import { totalKey, weighedTotals, type Night, type TotalWorth } from '../../src/model/index.js';
import { worthyNight } from '../support/worthy-night.js';

const found = (night: Night) => marginalFrames.find(night, marginalFrames.defaults);

describe('frames that lower a plain mean', () => {
  const night = worthyNight('twin-night');
  const [first] = weighedTotals(night);
  const kept = night.accounts.lights.filter(
    (f) => f.verdict === 'kept' && f.train === first?.train && f.filter === first?.filter && f.target === first?.target,
  );
  const marginal = kept.slice(0, 2).map((f) => f.id);
  /** The night with so many frames of its first total marginal, and none elsewhere. */
  const nightWith = (marginals: readonly string[]): Night => ({
    ...night,
    worth: night.worth && {
      ...night.worth,
      totals: Object.fromEntries(
        weighedTotals(night).map((t, i): [string, TotalWorth] => [
          totalKey(t),
          i === 0
            ? {
                ...t.worth,
                effectiveMs: 60 * 60_000,
                plainMeanMs: 50 * 60_000,
                bestMeanMs: 53 * 60_000,
                marginal: marginals,
              }
            : { ...t.worth, marginal: [] },
        ]),
      ),
    },
  });
  const withMarginal = nightWith(marginal);

  it('are listed with their share and linked', () => {
    const [finding, ...others] = found(withMarginal);
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ frames: 2, costMs: 10 * 60_000, winMs: 10 * 60_000 });
    expect(finding?.evidence).toHaveLength(3);
    expect(finding?.links?.map((l) => l.anchor)).toEqual(['effective', ...marginal.map((id) => `frame-${id}`)]);
  });

  it('are to be weighted, not thrown away', () => {
    expect(found(withMarginal)[0]?.advice).toMatch(/weight every frame .* instead of throwing any away/);
  });

  it('are not spoken of where there are none', () => {
    expect(found(nightWith([]))).toEqual([]);
  });
});
