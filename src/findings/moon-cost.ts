/**
 * What moonlight cost each train, and the order of filters that would have lost least to it.
 */
import {
  duration,
  isNarrowband,
  listed,
  groupBy,
  mean,
  statedFilter,
  sum,
  weighedLights,
  weighedTotals,
  type FilterOrder,
  type NarrowInstead,
  type NightFacts,
  type WeighedTotal,
} from '../model/index.js';
import type { FindingModule } from './finding.js';

export const moonCost: FindingModule<{ readonly minimumMinutes: number; readonly minimumWinMinutes: number }> = {
  id: 'moon-cost',
  title: 'What the Moon cost',
  needs: ['worth', 'times-by-the-sky'],
  defaults: { minimumMinutes: 10, minimumWinMinutes: 5 },
  find(night, { minimumMinutes, minimumWinMinutes }) {
    return [...groupBy(weighedTotals(night), (t) => t.train)].flatMap(([train, totals]) => {
      const costMs = sum(totals.map((t) => t.worth.moonShutterMs));
      if (costMs < minimumMinutes * 60_000) return [];
      const orders = (night.worth?.orders ?? []).filter(
        (o) => o.train === train && o.best !== null && o.lossMs - o.bestLossMs >= minimumWinMinutes * 60_000,
      );
      const isMixed = (night.worth?.orders ?? []).some((o) => o.train === train);
      const orderMs = sum(orders.map((o) => o.lossMs - o.bestLossMs));
      const instead = (night.worth?.instead ?? []).filter((one) => one.train === train && savedMs(one) > 0);
      const insteadMs = Math.min(costMs, sum(instead.map(savedMs)));
      // If another order helps, broad bands need not be left out.
      const isNarrow = orders.length === 0 && insteadMs >= minimumWinMinutes * 60_000;
      // If the model cannot compare them with narrow ones, the gain of these is unknown, not zero.
      const isUnknown = !isNarrow && orders.length === 0 && broadOf(totals, night).length > 0;
      const skyLimited = totals.some((t) => t.worth.noise === 'sky-limited');
      return [
        {
          title: `Moonlight cost ${train} ${skyLimited ? 'up to ' : ''}${duration(costMs)} of its exposure`,
          costMs,
          evidence: [
            ...lossLines(totals, night),
            ...orders.map(orderLine),
            ...(isNarrow ? instead.map(insteadLine) : []),
            ...(skyLimited
              ? [
                  `${train}’s read noise or sky in electrons is unknown: the sky was taken to be the only ` +
                    'noise, so moonlight cost no more than this, and the filters differ by extinction alone',
                ]
              : []),
          ],
          advice: isNarrow
            ? insteadAdvice(instead, totals)
            : orders.length > 0
              ? orders.map(orderAdvice).join(' ')
              : (isMixed ? `Reordering ${train}’s filters would save under ${minimumWinMinutes} min. ` : '') +
                `${keepFor(totals, night)}`,
          ...(isUnknown ? {} : { winMs: isNarrow ? insteadMs : orderMs }),
          confidence: skyLimited ? ('low' as const) : ('medium' as const),
          links: [{ text: 'Effective integration', anchor: 'effective' }],
          caution: 'From a model of a clear moonlit sky, good to ±0.3 mag outside V. It is not photometry.',
        },
      ];
    });
  },
};

function savedMs({ lossMs, instead }: NarrowInstead): number {
  return lossMs - instead.lossMs;
}

function insteadLine({ filters, lossMs, instead }: NarrowInstead): string {
  return (
    `by the model ${listed(filters)} lost ${duration(lossMs)} to the Moon; ${instead.filter} in the same ` +
    `hours would have lost ${duration(instead.lossMs)}`
  );
}

/** The first sentence does not name the train: the same advice for two trains is given once. */
function insteadAdvice(instead: readonly NarrowInstead[], totals: readonly WeighedTotal[]): string {
  const narrow = [...new Set(instead.map((one) => one.instead.filter))];
  const broad = [...new Set(instead.flatMap(({ filters }) => filters))];
  const keptMs = sum(totals.filter(({ filter }) => broad.includes(filter)).map(({ ms }) => ms.kept));
  // If narrow bands lose most of it too, the target is too close.
  const isNear = sum(instead.map((one) => one.instead.lossMs)) > keptMs / 2;
  return (
    (isNear
      ? `Choose a target far from the Moon; on this one image through ${listed(narrow)} instead of broadband filters. `
      : `While the Moon is bright, image through ${listed(narrow)} instead of broadband filters. `) +
    `Keep ${listed(broad)} for hours without the Moon.`
  );
}

/** Broadband exposures that lost something to moonlight. */
function broadOf(totals: readonly WeighedTotal[], { gathered }: NightFacts): string[] {
  const broad = totals.filter(
    (t) => !isNarrowband(statedFilter(t.filter, t.train, gathered.cameras)) && t.worth.moonShutterMs > 0,
  );
  return [...new Set(broad.map((t) => t.filter))];
}

/** Not advised to those who already took narrow bands. */
function keepFor(totals: readonly WeighedTotal[], night: NightFacts): string {
  const broad = broadOf(totals, night);
  return broad.length > 0
    ? `Keep ${listed(broad)} for hours without the Moon; narrowband loses least to it.`
    : 'Narrowband was the right choice: what remains is to choose a target farther from the Moon, or a night ' +
        'with less of it.';
}

/** Less is not worth a line of its own, ms. */
const LINE_MS = 60_000;

function lossLines(totals: readonly WeighedTotal[], night: NightFacts): string[] {
  const small = totals.filter((t) => t.worth.moonShutterMs < LINE_MS);
  const restMs = sum(small.map((t) => t.worth.moonShutterMs));
  return [
    ...totals.filter((t) => t.worth.moonShutterMs >= LINE_MS).map((t) => lossLine(t, night)),
    ...(restMs >= 1000 ? [`the others together: ${duration(restMs)}`] : []),
  ];
}

function lossLine({ target, filter, train, ms, worth }: WeighedTotal, night: NightFacts): string {
  const brightening = mean(
    weighedLights(night).flatMap((f) =>
      f.verdict === 'kept' && f.train === train && f.target === target && (f.filter ?? filter) === filter
        ? [f.worth.moonBrighteningMag]
        : [],
    ),
  );
  return (
    `${filter}, ${target}: ${duration(worth.moonShutterMs)} of the ${duration(ms.kept)} kept; sky brighter by ` +
    `${brightening.toFixed(1)} mag (V) on average`
  );
}

function orderLine({ target, filters }: FilterOrder): string {
  const parts = filters.map((f) => `${f.filter} ${duration(f.lossMs)}, at best ${duration(f.bestLossMs)}`);
  return (
    `${target}: exposure lost to the Moon by the model, in the order as it was and in the best order of the same ` +
    `filters, one after the other over the same exposures: ${parts.join('; ')}`
  );
}

/** The advised order, and its saving. */
function orderAdvice({ target, best, lossMs, bestLossMs }: FilterOrder): string {
  const [first = '', ...others] = best ?? [];
  return (
    `On ${target}, take ${first} first${others.map((filter) => `, then ${filter}`).join('')}: ` +
    `${duration(lossMs - bestLossMs)} less of the exposure would have been lost to the Moon.`
  );
}
