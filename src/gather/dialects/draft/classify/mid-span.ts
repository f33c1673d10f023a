import { beginOf, endOf, EVENT_NAMES, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Occurrence } from './occurrences.js';

/** What the mount does in a minute or two, nothing else meanwhile: two trains focus at once, and guiding has rests. */
const OF_MOUNT = /^(?:slew|centre|flip|dither|settling)-/;
/** What words say outright, and how far they are ahead of the other side of the thing then. */
const SAID = 3.5;
const AHEAD = 1.2;
/** Words that say no side: they are worth so much less than those that say one. */
const BARE = 0.8;
/** Beginnings that words tell, at least; the ends are as many but for this share. */
const MIN_BEGINS = 2;
const MISSING = 0.2;
/** Lines that stand between a beginning and its end. */
const AMID = 0.8;

/**
 * Takes from kinds that only name a thing what they might begin or end: where the words of other kinds tell its
 * beginnings and its ends, as often, a line in between says how it goes on. `centring/start`, `centring/offset 7`,
 * `centring/end`.
 */
export function withoutAmid(own: ReadonlyMap<Kind, Map<EventName, number>>, timeline: readonly Occurrence[]): void {
  for (const begin of EVENT_NAMES) {
    const end = endOf(begin);
    if (end === undefined || !OF_MOUNT.test(begin)) continue;
    const begins = saying(own, begin, end);
    const ends = saying(own, end, begin);
    const [begun, over] = [countOf(begins), countOf(ends)];
    if (begun < MIN_BEGINS || Math.abs(begun - over) > Math.max(1, MISSING * begun)) continue;
    const least = Math.min(...[...begins].map((kind) => own.get(kind)?.get(begin) ?? 0));
    const bare = [...own].flatMap(([kind, evidence]) => {
      if (begins.has(kind) || ends.has(kind) || kind.count < MIN_BEGINS) return [];
      const value = Math.max(evidence.get(begin) ?? 0, evidence.get(end) ?? 0);
      const isNamed = value > 0 && value === Math.max(...evidence.values());
      return isNamed && value <= least - BARE ? [kind] : [];
    });
    if (bare.length === 0) continue;
    const within = new Map<Kind, number>();
    let since: Kind[] | null = null;
    for (const { kind } of timeline) {
      if (begins.has(kind)) since = [];
      else if (!ends.has(kind)) since?.push(kind);
      else {
        // What no end follows may be one itself: that it failed, say.
        for (const one of since ?? []) within.set(one, (within.get(one) ?? 0) + 1);
        since = null;
      }
    }
    for (const kind of bare) {
      if ((within.get(kind) ?? 0) < AMID * kind.count) continue;
      const evidence = own.get(kind);
      for (const event of [...(evidence?.keys() ?? [])])
        if (endOf(event) !== undefined || beginOf(event) !== undefined) evidence?.delete(event);
    }
  }
}

function saying(own: ReadonlyMap<Kind, Map<EventName, number>>, event: EventName, other: EventName): Set<Kind> {
  const kinds = [...own].filter(([, evidence]) => {
    const value = evidence.get(event) ?? 0;
    return value >= SAID && value - (evidence.get(other) ?? 0) >= AHEAD && value === Math.max(...evidence.values());
  });
  return new Set(kinds.map(([kind]) => kind));
}

function countOf(kinds: ReadonlySet<Kind>): number {
  return [...kinds].reduce((sum, { count }) => sum + count, 0);
}
