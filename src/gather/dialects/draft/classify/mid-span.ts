import { beginOf, endOf, EVENT_NAMES, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Occurrence } from './occurrences.js';

/** What the mount does exclusively for a minute or two: two trains may focus in parallel, and guiding has pauses. */
const OF_MOUNT = /^(?:slew|centre|flip|dither|settling)-/;
/** Strong word evidence, and its lead over the other side of the span. */
const SAID = 3.5;
const AHEAD = 1.2;
/** Required deficit of words that name neither side. */
const BARE = 0.8;
/** Minimum number of reported begins; the number of ends agrees within the tolerance below. */
const MIN_BEGINS = 2;
const MISSING = 0.2;
/** Fraction of lines between a begin and its end. */
const AMID = 0.8;

/**
 * Removes begin and end evidence from kinds that only name a thing: if other kinds report its begins and ends equally
 * often, a line in between reports progress. `centring/start`, `centring/offset 7`, `centring/end`.
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
        // A line without a following end may itself be one, such as a failure.
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
