import { endOf, type EventName, otherSideOf } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Occurrence } from './occurrences.js';

/** The count of fewer lines is not informative. */
const MIN_LINES = 2;
/** Both sides of a span are reported equally often within this tolerance. */
const AWAY = 0.15;
/** Lines that alternate with those of the other side. */
const IN_TURN = 0.8;

/**
 * Resolves ambiguous kinds: picks the event whose other side is logged equally often and alternates with their lines,
 * if that holds for one candidate only. `Guide star there` after each `guide star lost`.
 *
 * @param tied kinds, and their equally likely events
 * @param taken the events of the other kinds
 */
export function balanced(
  tied: ReadonlyMap<Kind, readonly EventName[]>,
  taken: ReadonlyMap<Kind, EventName>,
  timeline: readonly Occurrence[],
): Map<Kind, EventName> {
  const counts = new Map<EventName, number>();
  for (const [kind, event] of taken) counts.set(event, (counts.get(event) ?? 0) + kind.count);
  const found = new Map<Kind, EventName>();
  for (const [kind, events] of tied) {
    if (kind.count < MIN_LINES || taken.has(kind)) continue;
    const fitting = events.filter((event) => {
      const other = otherSideOf(event);
      if (other === undefined) return false;
      const missing = (counts.get(other) ?? 0) - (counts.get(event) ?? 0);
      return (
        Math.abs(missing - kind.count) <= Math.max(1, AWAY * kind.count) && standsInTurn(kind, event, taken, timeline)
      );
    });
    const [event, second] = fitting;
    if (event !== undefined && second === undefined) found.set(kind, event);
  }
  return found;
}

/** Whether the lines of a kind alternate with those of the other side of an event. */
function standsInTurn(
  kind: Kind,
  event: EventName,
  taken: ReadonlyMap<Kind, EventName>,
  timeline: readonly Occurrence[],
): boolean {
  const other = otherSideOf(event);
  let isTurn = endOf(event) !== undefined;
  let inTurn = 0;
  let lines = 0;
  for (const { kind: own } of timeline) {
    if (own === kind) {
      lines++;
      if (isTurn) inTurn++;
      isTurn = false;
    } else if (taken.get(own) === other) isTurn = true;
  }
  return inTurn >= IN_TURN * lines;
}
