import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';

/** Minimum word evidence for a pier side change. */
const SAID = 3;

/**
 * A movement without a target that mentions the other side of the mount is the flip itself, and the apparent end of a
 * slew is its end. `Turned to the other side of the pier`, then `it has been turned`.
 *
 * @param strays misclassified kinds
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

/** A flip is finished within this time, ms (common practice, no source). */
const LONGEST_MS = 420_000;
