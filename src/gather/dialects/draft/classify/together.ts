import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Decoded } from './decode.js';
import type { Twins } from './twins.js';

/** The decisions on kinds, with twins decided jointly: they say the same, and more lines give more certainty. */
export function together(decoded: ReadonlyMap<Kind, Decoded>, twins: readonly Twins[]): ReadonlyMap<Kind, Decoded> {
  const merged = new Map(decoded);
  for (const [a, b] of twins) {
    const one = merged.get(a);
    const other = merged.get(b);
    if (one === undefined || other === undefined) continue;
    // A twin without evidence of its own, a single line, follows the other.
    if (one.ranking.length === 0 || other.ranking.length === 0) {
      const decided = one.ranking.length === 0 ? other : one;
      merged.set(a, decided).set(b, decided);
      continue;
    }
    const share = a.count / (a.count + b.count);
    const values = new Map(other.ranking.map(([event, value]) => [event, value * (1 - share)]));
    const ranking = one.ranking
      .flatMap(([event, value]): [EventName, number][] => {
        const twin = values.get(event);
        return twin === undefined ? [] : [[event, value * share + twin]];
      })
      .sort((p, q) => q[1] - p[1]);
    const both = { ranking, fit: Math.max(one.fit, other.fit), rival: Math.max(one.rival, other.rival) };
    merged.set(a, both).set(b, both);
  }
  return merged;
}
