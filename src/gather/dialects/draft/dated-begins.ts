import { beginOf, type EventName } from '../../../model/index.js';
import type { DraftRule } from './report.js';

/** What ends is dated by how long it took, in so many of its lines. */
const DATED = 0.8;

/** The beginnings that are known from the ends, nearly all of which say how long the thing took. */
export function datedBegins(rules: readonly DraftRule[]): ReadonlySet<EventName> {
  const counts = new Map<EventName, { all: number; dated: number }>();
  for (const { events, lasted, count } of rules)
    for (const { event } of events) {
      const begin = beginOf(event);
      if (begin === undefined) continue;
      const one = counts.get(begin) ?? { all: 0, dated: 0 };
      counts.set(begin, { all: one.all + count, dated: one.dated + (lasted === undefined ? 0 : count) });
    }
  return new Set([...counts].flatMap(([begin, { all, dated }]) => (dated >= DATED * all ? [begin] : [])));
}
