/** Dithers that hardly move a train, or always in one direction: the sensor's pattern stays in the stack. */
import { median, robustSpread, type DitherSpread } from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';

export const ditherSpread: FindingModule<{
  readonly minimumPlaces: number;
  readonly minimumScatterPx: number;
}> = {
  id: 'dither-spread',
  title: 'Spread of the dithers on the sensors',
  needs: ['dither-places'],
  // A spread of two pixels on each axis separates most neighbours (common practice, no source).
  defaults: { minimumPlaces: 6, minimumScatterPx: 2 },
  find(night, { minimumPlaces, minimumScatterPx }) {
    return (night.stars?.pointings ?? []).flatMap(({ train, target, dithers }): FindingDraft[] => {
      if (!dithers || dithers.places.length < minimumPlaces) return [];
      const { scatterPx, oneWay, places } = dithers;
      const least = Math.min(scatterPx.x, scatterPx.y);
      const { isWalking } = oneWay;
      if (least >= minimumScatterPx && !isWalking) return [];
      const evidence = [
        `${places.length} places, a spread of ${scatterPx.x.toFixed(1)} px along x and ` +
          `${scatterPx.y.toFixed(1)} px along y`,
        ...sizes(dithers),
        ...(isWalking
          ? [
              `a steady trend of ${oneWay.trendPx.toFixed(1)} px over the night against ` +
                `${oneWay.aroundPx.toFixed(1)} px around it`,
            ]
          : []),
      ];
      return [
        {
          title: isWalking
            ? `${train}’s dithers on ${target} went one way: ${oneWay.trendPx.toFixed(0)} px over the night`
            : `${train}’s dithers on ${target} spread over only ${least.toFixed(1)} px`,
          costMs: 0,
          price: isWalking ? `${oneWay.trendPx.toFixed(0)} px one way` : `${least.toFixed(1)} px of spread`,
          evidence,
          advice: isWalking
            ? `Dither at random in both axes and by more than the ${oneWay.trendPx.toFixed(0)} px of drift; a ` +
              `drift between guider and ${train} walks the pattern as well.`
            : `Ask for dithers about ${factor(least, minimumScatterPx)} times as large, at random in both axes.`,
          confidence: places.length >= 12 ? 'high' : 'medium',
          links: [{ text: 'Pointing of the pair', anchor: 'pair' }],
        },
      ];
    });
  },
};

function factor(least: number, wanted: number): string {
  const times = least > 0 ? wanted / least : Infinity;
  return times >= 10 ? 'ten' : String(Math.max(2, Math.ceil(times)));
}

function sizes({ steps }: DitherSpread): readonly string[] {
  const asked = steps.flatMap(({ askedPx }) => askedPx ?? []);
  if (steps.length === 0) return [];
  const got = steps.map(({ gotPx }) => gotPx);
  return [
    `median step ${median(got).toFixed(1)} px` +
      `${asked.length > 0 ? `, ${median(asked).toFixed(1)} px of the guide camera asked for` : ''}, with a ` +
      `scatter of ${robustSpread(got).toFixed(1)} px`,
  ];
}
