/**
 * What moonlight cost each train, and the order of filters that would have lost least to it.
 */
import {
  duration,
  groupBy,
  mean,
  sum,
  weighedLights,
  weighedTotals,
  type FilterOrder,
  type NightFacts,
  type WeighedTotal,
} from '../model/index.js';
import type { FindingModule } from './finding.js';

export const moonCost: FindingModule<{ readonly minimumMinutes: number; readonly minimumWinMinutes: number }> = {
  id: 'moon-cost',
  title: 'What the Moon cost',
  needs: ['worth'],
  defaults: { minimumMinutes: 10, minimumWinMinutes: 5 },
  find(night, { minimumMinutes, minimumWinMinutes }) {
    return [...groupBy(weighedTotals(night), (t) => t.train)].flatMap(([train, totals]) => {
      const costMs = sum(totals.map((t) => t.worth.moonShutterMs));
      if (costMs < minimumMinutes * 60_000) return [];
      const orders = (night.worth?.orders ?? []).filter(
        (o) => o.train === train && o.lossMs - o.bestLossMs >= minimumWinMinutes * 60_000,
      );
      const isMixed = (night.worth?.orders ?? []).some((o) => o.train === train);
      const winMs = sum(orders.map((o) => o.lossMs - o.bestLossMs));
      const skyLimited = totals.some((t) => t.worth.noise === 'sky-limited');
      return [
        {
          title: `The Moon took ${duration(costMs)} of ${train}’s open shutter`,
          costMs,
          evidence: [
            ...totals.map((t) => lossLine(t, night)),
            ...orders.map(orderLine),
            ...(skyLimited
              ? [
                  `${train}’s read noise or sky in electrons is unknown: the sky was taken to be all the noise, which tells the filters apart by extinction alone`,
                ]
              : []),
          ],
          advice:
            orders.length > 0
              ? orders.map(orderAdvice).join(' ')
              : `${isMixed ? `No other order of ${train}’s filters would have lost ${minimumWinMinutes} minutes less.` : `${train} had no filters on one target to exchange.`} Under such a Moon choose narrow bands and targets far from it, and keep broad bands for nights without it.`,
          winMs,
          confidence: skyLimited ? ('low' as const) : ('medium' as const),
          links: [{ text: 'Effective integration', anchor: 'effective' }],
          caution: 'By a model of a clear moonlit sky, good to ±0.3 mag outside V. It is no photometry.',
        },
      ];
    });
  },
};

function lossLine({ target, filter, train, ms, worth }: WeighedTotal, night: NightFacts): string {
  const brightening = mean(
    weighedLights(night).flatMap((f) =>
      f.verdict === 'kept' && f.train === train && f.target === target && (f.filter ?? filter) === filter
        ? [f.worth.moonBrighteningMag]
        : [],
    ),
  );
  return `${filter}, ${target}: ${duration(worth.moonLossMs)} of effective time lost in ${duration(ms.kept)} kept; sky brighter by ${brightening.toFixed(1)} mag on average`;
}

function orderLine({ target, filters }: FilterOrder): string {
  const parts = filters.map((f) => `${f.filter} ${duration(f.lossMs)} → ${duration(f.bestLossMs)}`);
  return `${target}: open shutter taken by the Moon, in the order as it was → in the best order of the same filters over the same exposures: ${parts.join(', ')}`;
}

/** Which filters belong in the darker part of the night, and which under the Moon. */
function orderAdvice({ target, filters, lossMs, bestLossMs }: FilterOrder): string {
  const byGain = [...filters].sort((a, b) => gain(b) - gain(a));
  const darker = byGain.filter((f) => gain(f) > 0).map((f) => f.filter);
  const brighter = byGain
    .filter((f) => gain(f) <= 0)
    .map((f) => f.filter)
    .reverse();
  return `On ${target}, take ${darker.join(', ')} while the sky is darkest and ${brighter.join(', ')} under the Moon: ${duration(lossMs - bestLossMs)} less of the open shutter would have gone to it.`;
}

function gain({ brighteningMag, bestBrighteningMag }: FilterOrder['filters'][number]): number {
  return brighteningMag - bestBrighteningMag;
}
