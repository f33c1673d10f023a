import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Trains } from './trains.js';

/** What each train does by itself: where nearly all such lines name it, the others are about something else. */
const OWN = /^(?:exposure|filter|focus)-/;
const NEARLY_ALL = 0.9;
/** What it says that a line names no train, or one. */
const UNNAMED = 0.8;
const WAITING = 1;
/** Words that say of a train what it waits for. */
const WAITS = 2.4;

/**
 * Weighs, in a log of several trains, whether lines name one: a wait for the dither is a train's, the dither nobody's;
 * `guiding paused, heron refocuses` is no refocus where those name their train in a column.
 */
export function withNamedTrains(own: ReadonlyMap<Kind, Map<EventName, number>>, trains: Trains | null): void {
  if (trains === null) return;
  const isNamed = (kind: Kind): boolean => kind.atMs.every((_, nth) => trains.of(kind, nth) >= 0);
  const likeliest = (evidence: ReadonlyMap<EventName, number>): EventName | undefined =>
    [...evidence].sort((a, b) => b[1] - a[1])[0]?.[0];
  let all = 0;
  let named = 0;
  for (const [kind, evidence] of own) {
    if (!OWN.test(likeliest(evidence) ?? '')) continue;
    all += kind.count;
    if (isNamed(kind)) named += kind.count;
  }
  for (const [kind, evidence] of own) {
    if (isNamed(kind)) {
      const waits = evidence.get('dither-ready') ?? 0;
      if (waits >= WAITS) evidence.set('dither-ready', waits + WAITING);
    } else if (named >= NEARLY_ALL * all)
      for (const [event, value] of evidence) if (OWN.test(event)) evidence.set(event, value - UNNAMED);
  }
}
