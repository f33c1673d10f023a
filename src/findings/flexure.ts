/** A companion that drifts relative to the guided train fast enough to show in its subs. */
import { CAUTION, duration, type DriftStretch, type Flexure } from '../model/index.js';
import type { FindingModule } from './finding.js';
import { fromTo } from './wording.js';

export const flexure: FindingModule<{ readonly harmlessPx: number }> = {
  id: 'flexure',
  title: 'Drift of the companion against the guided train',
  needs: ['pair-flexure', 'times-by-the-sky'],
  // Common practice, no source.
  defaults: { harmlessPx: 0.5 },
  find(night, { harmlessPx }) {
    return (night.stars?.pairs ?? []).flatMap((pair) => {
      const { flexure: found } = pair;
      const [pilot, companion] = pair.trains;
      if (!found?.isMeasured) return [];
      const worstPx = Math.max(found.overall.pxPerHour, ...steadyHours(found).map((h) => h.pxPerHour));
      const trailPx = (worstPx * found.subSeconds) / 3600;
      if (trailPx < harmlessPx) return [];
      const longestSeconds = Math.floor((3600 * harmlessPx) / worstPx);
      return [
        {
          title:
            `${companion} drifted against ${pilot} by ${found.overall.arcsecPerHour.toFixed(1)}″ per hour: ` +
            `${trailPx.toFixed(1)} px per sub`,
          costMs: 0,
          price: `${trailPx.toFixed(1)} px per sub`,
          evidence: [
            `${pair.target}: ${found.overall.arcsecPerHour.toFixed(1)}″ ± ` +
              `${found.overall.uncertaintyArcsecPerHour.toFixed(1)}″ per hour over ${found.overall.frames} ` +
              'frames, with guiding and dithers removed',
            ...worstHour(found).map((h) => `${h.arcsecPerHour.toFixed(1)}″ per hour from ${fromTo(h, night)}`),
            `a sub of ${Math.round(found.subSeconds)} s trails by ${trailPx.toFixed(2)} px; one of ` +
              `${longestSeconds} s stays below ${harmlessPx} px`,
          ],
          advice:
            `Keep ${companion}’s subs to ${duration(1000 * longestSeconds)} at most, or find what flexes ` +
            'between the two: focuser, rings, plate, a cable that pulls. Change one thing per night and compare ' +
            'this figure.',
          confidence:
            found.overall.pxPerHour > 5 * found.overall.uncertaintyPxPerHour ? ('high' as const) : ('medium' as const),
          links: [{ text: 'Pointing of the pair', anchor: 'pair' }],
          caution: CAUTION,
        },
      ];
    });
  },
};

/** Hours with a rate within the noise would make the worst hour random. */
function steadyHours({ hours }: Flexure): readonly DriftStretch[] {
  return hours.filter((h) => h.pxPerHour >= 2 * h.uncertaintyPxPerHour);
}

/** The hour with the highest rate, if it stands out. */
function worstHour(found: Flexure): readonly DriftStretch[] {
  const fastest = [...steadyHours(found)].sort((a, b) => b.pxPerHour - a.pxPerHour)[0];
  return fastest && fastest.pxPerHour > 1.2 * found.overall.pxPerHour ? [fastest] : [];
}
