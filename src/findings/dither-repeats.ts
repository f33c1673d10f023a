/** Dithers that return to the same position: the same pixels see the same sky again. */
import { counted, groupBy, sum, type DitherSpread } from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { clock, firstOf } from './wording.js';

/** Positions within this of one another count as one, px: the pairs with which the spread was measured. */
const SAME_PLACE_PX = 1;

export const ditherRepeats: FindingModule<{
  readonly minimumPairs: number;
  readonly minimumShare: number;
  readonly timesChance: number;
}> = {
  id: 'dither-repeats',
  title: 'Dithers returning to the same position',
  needs: ['dither-places'],
  // A pair among many positions is chance, and so are as many as random positions with this spread have (common
  // practice, no source). If the spread itself is small, `dither-spread` says so.
  defaults: { minimumPairs: 2, minimumShare: 0.25, timesChance: 2 },
  find(night, { minimumPairs, minimumShare, timesChance }) {
    return (night.stars?.pointings ?? []).flatMap(({ train, target, dithers }): FindingDraft[] => {
      if (!dithers) return [];
      const { places, repeats } = dithers;
      const again = new Set(repeats.map(({ second }) => second)).size;
      if (repeats.length < minimumPairs || again < minimumShare * places.length) return [];
      const byChance = pairsByChance(dithers);
      if (repeats.length < timesChance * byChance) return [];
      return [
        {
          title:
            `${again} of ${train}’s ${counted(places.length, 'dither position')} on ${target} lie within a pixel ` +
            'of an earlier one',
          costMs: 0,
          price: `${Math.round((100 * again) / places.length)} % of the positions`,
          evidence: [
            `${counted(repeats.length, 'pair')} within a pixel on one side of the pier: ` +
              `${firstOf(pairs(dithers, (ms) => clock(ms, night))).join('; ')}`,
            `random positions with this spread would give ${Math.round(byChance)} such pairs`,
            `a stack averages the sensor’s fixed pattern over ${places.length - again} positions instead of ` +
              `${places.length}`,
          ],
          advice:
            'Dither at random rather than in a fixed sequence, and by more pixels: a sequence that starts over ' +
            'returns to its first position.',
          confidence: places.length >= 8 ? 'high' : 'medium',
          links: [{ text: 'Pointing of the pair', anchor: 'pair' }],
        },
      ];
    });
  },
};

/**
 * Expected number of pairs within a pixel among random positions: the difference of two has twice the variance of each,
 * so that a fraction 1 − exp(−r²/4σ²) is within r (Gaussian on both axes; derived here).
 */
function pairsByChance({ places, scatterPx }: DitherSpread): number {
  const ofSides = [...groupBy(places, ({ flipped }) => flipped).values()].map(({ length: n }) => (n * (n - 1)) / 2);
  return sum(ofSides) * -Math.expm1(-(SAME_PLACE_PX ** 2) / (4 * scatterPx.x * scatterPx.y));
}

function pairs({ places, repeats }: DitherSpread, time: (atMs: number) => string): readonly string[] {
  return repeats.flatMap(({ first, second, apartPx }) => {
    const [a, b] = [places[first], places[second]];
    return a && b ? [`${time(a.startMs)} and ${time(b.startMs)}, ${apartPx.toFixed(1)} px apart`] : [];
  });
}
