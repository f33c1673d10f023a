import { byRule, exposureCount, named, type Audit } from './drafted-night.js';

/**
 * Maximum number per exposure; and, where the log reports no exposures, the maximum per night (common practice, no
 * source): a wheel turns between two exposures, a dither follows one, a mount flips once.
 */
const LIMITS: readonly (readonly [RegExp, number, number])[] = [
  [/^filter-/, 1.1, 60],
  [/^focus-/, 0.5, 50],
  [/^(?:slew|centre)-/, 0.35, 40],
  [/^flip-/, 0.1, 8],
  [/^hold-/, 0.25, 25],
  [/^guiding-/, 0.5, 150],
  [/^dither-(?:begin|end)$/, 1.1, 300],
  [/^settling-/, 1.6, 400],
  [/^dither-ready$/, 2.2, 600],
];
/** Fewer exposures are no basis for a rate. */
const MIN_EXPOSURES = 20;
const SPARE = 4;

/**
 * Kinds of line that are more frequent than their event can be: removes the most frequent first until the rest is
 * plausible.
 */
export const tooCommon: Audit = ({ drafted }) => {
  const exposures = exposureCount(drafted);
  return [...new Set(drafted.map(({ event: { event } }) => event))].flatMap((event) => {
    const [, each, atMost] = LIMITS.find(([name]) => name.test(event)) ?? [null, Infinity, Infinity];
    const most = exposures >= MIN_EXPOSURES ? each * exposures + SPARE : atMost;
    const all = named(drafted, event);
    let left = all.length;
    return byRule(all)
      .toSorted((a, b) => b.own.length - a.own.length)
      .flatMap(({ rule, own }) => {
        if (left <= most) return [];
        left -= own.length;
        return [{ rule, event, why: `it comes ${all.length} times beside ${exposures} exposures` }];
      });
  });
};
