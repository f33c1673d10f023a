import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { beforeDithers } from './before-dithers.js';
import type { Occurrence } from './occurrences.js';
import { waits } from '../lexicon/said.js';
import type { Trains } from './trains.js';

/** What each train does separately: if nearly all such lines name it, the others are about something else. */
const OWN = /^(?:exposure|filter|focus)-/;
const NEARLY_ALL = 0.9;
/** The weight of naming no train, or one. */
const UNNAMED = 0.8;
const WAITING = 1;
/** Words that say what a train is waiting for. */
const WAITS = 2.4;

/** One train waits for the other, for something that concerns both. */
const FOR_OTHER = 3;

/** Whether every line of a kind names two trains. */
function namesTwo({ slots }: Kind, { names }: Trains): boolean {
  return (
    slots.filter(({ type, values }) => type === 'text' && values.every((value) => names.includes(value))).length > 1
  );
}

/**
 * In a log of several trains, weighs whether lines name one: a wait for the dither belongs to a train, the dither to
 * none; `guiding paused, heron refocuses` is not a refocus if refocus lines name their train in a column.
 */
export function withNamedTrains(
  own: ReadonlyMap<Kind, Map<EventName, number>>,
  timeline: readonly Occurrence[],
  trains: Trains | null,
): void {
  if (trains === null) return;
  for (const [kind, more] of beforeDithers(own, timeline, trains)) {
    const evidence = own.get(kind);
    evidence?.set('dither-ready', Math.max(0, evidence.get('dither-ready') ?? 0) + more);
  }
  const isNamed = (kind: Kind): boolean => kind.atMs.every((_, nth) => trains.of(kind, nth) >= 0);
  const likeliest = (evidence: ReadonlyMap<EventName, number>): EventName | undefined =>
    [...evidence].sort((a, b) => b[1] - a[1])[0]?.[0];
  for (const [kind, evidence] of own)
    if (namesTwo(kind, trains) && waits(kind.wording))
      evidence.set('dither-ready', Math.max(evidence.get('dither-ready') ?? 0, FOR_OTHER));
  let all = 0;
  let named = 0;
  for (const [kind, evidence] of own) {
    if (!OWN.test(likeliest(evidence) ?? '')) continue;
    all += kind.count;
    if (isNamed(kind)) named += kind.count;
  }
  for (const [kind, evidence] of own) {
    if (isNamed(kind)) {
      const ready = evidence.get('dither-ready') ?? 0;
      if (ready >= WAITS) evidence.set('dither-ready', ready + WAITING);
    } else if (named >= NEARLY_ALL * all)
      for (const [event, value] of evidence) if (OWN.test(event)) evidence.set(event, value - UNNAMED);
  }
}
