import { beginOf, type EventName } from '../../../model/index.js';
import type { DraftRule } from './report.js';

/** Minimum fraction of lines with a duration for an end to date its begin. */
const DATED = 0.8;

/** The begins that are derived from ends, nearly all of which state a duration. */
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
