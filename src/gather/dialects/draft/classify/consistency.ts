import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Occurrence } from './occurrences.js';

/** Fewer ends, or begins, imply nothing about the other side. */
const MIN_COUNT = 8;
/**
 * Begins and ends are equally frequent; this fraction of begins may be something else with the same name, such as a
 * preview.
 */
const FEW = 0.3;
/** Events reported repeatedly while they last. */
const STATES: ReadonlySet<EventName> = new Set(['star-gap-begin', 'hold-begin']);
/** What each train does separately. */
export const BY_TRAIN = /^(?:exposure|focus|filter)/;
/** A kind most of whose lines begin what is already in progress reports a state. */
const REPEATED = 0.6;

/**
 * The kinds whose events contradict the rest of the timeline: far fewer begins than ends (or vice versa), and begins of
 * what is already in progress. Leaving them unclassified is better than writing a wrong rule.
 */
export function contradicting(
  events: ReadonlyMap<Kind, EventName>,
  timeline: readonly Occurrence[],
  trainOf: (kind: Kind, nth: number) => number = () => -1,
): Set<Kind> {
  const repeated = repeating(events, timeline, trainOf);
  const rest = new Map([...events].filter(([kind]) => !repeated.includes(kind)));
  return new Set([...repeated, ...outnumbered(rest)]);
}

/** If both ends were logged they would be equally frequent: the rarer side is something else. */
function outnumbered(events: ReadonlyMap<Kind, EventName>): Kind[] {
  const counts = new Map<EventName, number>();
  for (const [kind, event] of events) counts.set(event, (counts.get(event) ?? 0) + kind.count);
  return [...events].flatMap(([kind, event]) => {
    const other = endOf(event) ?? (event === 'exposure-abort' ? undefined : beginOf(event));
    const others = other === undefined ? 0 : (counts.get(other) ?? 0);
    return others >= MIN_COUNT && (counts.get(event) ?? 0) < FEW * others ? [kind] : [];
  });
}

function repeating(
  events: ReadonlyMap<Kind, EventName>,
  timeline: readonly Occurrence[],
  trainOf: (kind: Kind, nth: number) => number,
): Kind[] {
  const openedBy = new Map<string, Kind>();
  const counts = new Map<Kind, { all: number; again: number }>();
  const nths = new Map<Kind, number>();
  for (const { kind } of timeline) {
    const event = events.get(kind);
    if (event === undefined) continue;
    const nth = nths.get(kind) ?? 0;
    nths.set(kind, nth + 1);
    const train = BY_TRAIN.test(event) ? trainOf(kind, nth) : -1;
    const begun = beginOf(event);
    if (begun !== undefined) openedBy.delete(`${begun} ${train}`);
    const end = endOf(event);
    if (end === undefined) continue;
    const key = `${event} ${train}`;
    const own = counts.get(kind) ?? { all: 0, again: 0 };
    counts.set(kind, own);
    own.all++;
    if (openedBy.has(key) && (event === 'hold-begin' || openedBy.get(key) !== kind)) own.again++;
    else if (!openedBy.has(key)) openedBy.set(key, kind);
  }
  const totals = new Map<EventName, number>();
  for (const [kind, event] of events) totals.set(event, (totals.get(event) ?? 0) + kind.count);
  return [...counts].flatMap(([kind, { all, again }]) => {
    const event = events.get(kind);
    if (event === undefined || again < REPEATED * all) return [];
    if (STATES.has(event)) return event === 'star-gap-begin' || all >= MIN_COUNT ? [kind] : [];
    // Two cameras in one log open their shutters in parallel; each has as many ends.
    const begins = (totals.get(event) ?? 0) - kind.count;
    const ends = totals.get(endOf(event) ?? event) ?? 0;
    return ends >= 0.6 * begins && ends <= 1.2 * begins ? [kind] : [];
  });
}
