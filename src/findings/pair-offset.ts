/** Fields with separate centres: what only one train sees is lost to a stack of both. */
import { CAUTION, type PairPointing } from '../model/index.js';
import type { FindingModule } from './finding.js';

export const pairOffset: FindingModule<{ readonly minimumGainPercent: number }> = {
  id: 'pair-offset',
  title: 'Centres of the trains’ fields',
  needs: ['pair-geometry'],
  // Three points of a field are a strip that a crop of the dithers takes as well (common practice, no source).
  defaults: { minimumGainPercent: 3 },
  find(night, { minimumGainPercent }) {
    return (night.stars?.pairs ?? []).flatMap((pair) => {
      const { offsetArcsec, overlapPercent, centred } = pair.geometry;
      const [pilot, companion] = pair.trains;
      const gain = {
        a: centred.overlapPercent.a - overlapPercent.a,
        b: centred.overlapPercent.b - overlapPercent.b,
      };
      const most = Math.max(gain.a, gain.b);
      if (most < minimumGainPercent) return [];
      return [
        {
          title: `The fields of ${pilot} and ${companion} on ${pair.target} lie ${minutesOfArc(offsetArcsec)} apart`,
          costMs: 0,
          price: `${most.toFixed(0)} % of the field`,
          evidence: [
            `shared: ${overlapPercent.a.toFixed(1)} % of ${pilot}’s field and ${overlapPercent.b.toFixed(1)} % ` +
              `of ${companion}’s, by ${pair.matched} stars`,
            `with the centres aligned ${centred.overlapPercent.a.toFixed(1)} % and ` +
              `${centred.overlapPercent.b.toFixed(1)} %`,
            `from ${pilot}’s centre to ${companion}’s: ${steps(pair)}`,
          ],
          advice:
            `Align ${companion}’s axis with ${pilot}’s: adjust the saddle or the rings until the centres coincide, ` +
            'and take a frame with each to check.',
          confidence: pair.matched >= 30 ? ('high' as const) : ('medium' as const),
          links: [{ text: 'Pointing of the pair', anchor: 'pair' }],
          caution: CAUTION,
        },
      ];
    });
  },
};

function minutesOfArc(arcsec: number): string {
  return `${(arcsec / 60).toFixed(1)}′`;
}

/** Along the axes of the first train's frames. */
function steps({ geometry: { offsetPx }, trains: [pilot] }: PairPointing): string {
  const one = (px: number, axis: string): string => `${px < 0 ? '−' : '+'}${Math.abs(px).toFixed(0)} px along ${axis}`;
  return `${one(offsetPx.x, 'x')}, ${one(offsetPx.y, 'y')} of ${pilot}’s frames`;
}
