/**
 * Dithers that come back to the same place: the same pixels see the same sky again.
 */
import { counted, type DitherSpread } from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { clock, firstOf } from './wording.js';

export const ditherRepeats: FindingModule<{ readonly minimumPairs: number; readonly minimumShare: number }> = {
  id: 'dither-repeats',
  title: 'Dithers back to the same place',
  needs: ['dither-places'],
  // A pair among many places is chance (common practice, no source).
  defaults: { minimumPairs: 2, minimumShare: 0.25 },
  find(night, { minimumPairs, minimumShare }) {
    return (night.stars?.pointings ?? []).flatMap(({ train, target, dithers }): FindingDraft[] => {
      if (!dithers) return [];
      const { places, repeats } = dithers;
      const again = new Set(repeats.map(({ second }) => second)).size;
      if (repeats.length < minimumPairs || again < minimumShare * places.length) return [];
      return [
        {
          title:
            `${again} of ${train}’s ${counted(places.length, 'place')} on ${target} lie within a pixel of one ` +
            'before',
          costMs: 0,
          price: `${Math.round((100 * again) / places.length)} % of the places`,
          evidence: [
            `${counted(repeats.length, 'pair')} within a pixel on one side of the pier: ` +
              `${firstOf(pairs(dithers, (ms) => clock(ms, night))).join('; ')}`,
            `a stack rejects the sensor’s pattern by ${places.length - again} places instead of ${places.length}`,
          ],
          advice:
            'Dither at random rather than along a fixed figure, and by more pixels: a figure that begins anew ' +
            'comes back to its first place.',
          confidence: places.length >= 8 ? 'high' : 'medium',
          links: [{ text: 'Pointing of the pair', anchor: 'pair' }],
        },
      ];
    });
  },
};

function pairs({ places, repeats }: DitherSpread, time: (atMs: number) => string): readonly string[] {
  return repeats.flatMap(({ first, second, apartPx }) => {
    const [a, b] = [places[first], places[second]];
    return a && b ? [`${time(a.startMs)} and ${time(b.startMs)}, ${apartPx.toFixed(1)} px apart`] : [];
  });
}
