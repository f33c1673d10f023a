/**
 * Cameras turned against each other: corners that only one of them sees.
 */
import { CAUTION } from '../model/index.js';
import type { FindingModule } from './finding.js';

export const pairRotation: FindingModule<{ readonly minimumGainPercent: number }> = {
  id: 'pair-rotation',
  title: 'Cameras turned against each other',
  needs: ['pair-geometry'],
  // Less is not worth new flats (common practice, no source).
  defaults: { minimumGainPercent: 1 },
  find(night, { minimumGainPercent }) {
    return (night.stars?.pairs ?? []).flatMap((pair) => {
      const { overlapPercent, turn } = pair.geometry;
      const [pilot, companion] = pair.trains;
      const gain = Math.max(turn.overlapPercent.a - overlapPercent.a, turn.overlapPercent.b - overlapPercent.b);
      if (gain < minimumGainPercent) return [];
      const degrees = Math.abs(turn.byDeg).toFixed(1);
      return [
        {
          title: `The cameras of ${pilot} and ${companion} are turned by ${degrees}° against each other`,
          costMs: 0,
          price: `${gain.toFixed(0)} % of the field`,
          evidence: [
            `on ${pair.target} ${overlapPercent.a.toFixed(1)} % of ${pilot}’s field and ` +
              `${overlapPercent.b.toFixed(1)} % of ${companion}’s are common, by ${pair.matched} stars`,
            `with the sides lined up ${turn.overlapPercent.a.toFixed(1)} % and ${turn.overlapPercent.b.toFixed(1)} %`,
          ],
          advice:
            `Turn ${companion}’s camera by ${degrees}° ` +
            `${turn.byDeg < 0 ? 'from +y towards +x' : 'from +x towards +y'} of its own frames, by day, and take ` +
            'new flats. Take a frame of each before the second half of the turn: if the angle has grown, it is ' +
            'the other way.',
          confidence: pair.matched >= 30 ? ('high' as const) : ('medium' as const),
          links: [{ text: 'Pointing of the pair', anchor: 'pair' }],
          caution: CAUTION,
        },
      ];
    });
  },
};
