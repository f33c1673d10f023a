import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';

/** What words must say at least of a change of side. */
const SAID = 3;

/**
 * What goes to no target, and says that the mount changes its side: its way there is the flip, and what seemed to be
 * the end of a slew is the end of that. `Turned to the other side of the pier`, then `it has been turned`.
 *
 * @param strays kinds that are not what they were taken for
 */
export function sidesIn(
  strays: ReadonlySet<Kind>,
  events: ReadonlyMap<Kind, EventName>,
  own: ReadonlyMap<Kind, ReadonlyMap<EventName, number>>,
): Map<Kind, EventName> {
  const sides = new Map<Kind, EventName>();
  if ([...events.values()].includes('flip-begin')) return sides;
  const begins = [...strays].filter(
    (kind) => events.get(kind) === 'slew-begin' && (own.get(kind)?.get('flip-begin') ?? 0) >= SAID,
  );
  for (const begin of begins) {
    sides.set(begin, 'flip-begin');
    for (const kind of strays) {
      const follows = kind.atMs.every((atMs) => begin.atMs.some((one) => atMs > one && atMs - one <= LONGEST_MS));
      if (events.get(kind) === 'slew-end' && follows) sides.set(kind, 'flip-end');
    }
  }
  return sides;
}

/** A mount has changed its side by then, ms (common practice, no source). */
const LONGEST_MS = 420_000;
