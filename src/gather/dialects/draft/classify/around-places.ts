import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Occurrence } from './occurrences.js';
import { arcsecondsIn, hasFile } from './own-evidence.js';

/** A smaller offset was hardly worth centring, arcseconds (common practice, no source). */
const AWAY = 5;
/** Minimum number of runs of such lines, and fraction of a kind's lines that are at one of their ends. */
const MIN_RUNS = 2;
const MOST = 0.8;
const AROUND = 1.8;
/** Words with more evidence than this for another event win, except for events that cannot happen there. */
const SAID_CLEARLY = 2.7;
const ELSEWHERE = /^(?:focus|guiding|settling|dither)/;
/** When the position is measured the mount has arrived. */
const NOT_YET = /^(?:slew|flip)-begin$/;

/**
 * The evidence, adjusted for kinds next to position offsets, against words that seem to name something that does not
 * happen there.
 */
export function putAround(evidence: Map<EventName, number>, [event, by]: readonly [EventName, number]): void {
  for (const [name, value] of evidence) if (ELSEWHERE.test(name) || NOT_YET.test(name)) evidence.set(name, value - by);
  evidence.set(event, (evidence.get(event) ?? 0) + by);
}

/**
 * Finds the kinds around lines that state a pointing offset: the mount is being centred there, whatever the words.
 * `taking bearings`, `1.4 arcmin adrift`, `0.2 arcmin adrift`, `bearings good, 2 arcsec left`.
 */
export function aroundPlaces(
  kinds: readonly Kind[],
  timeline: readonly Occurrence[],
  own: ReadonlyMap<Kind, ReadonlyMap<EventName, number>>,
): Map<Kind, readonly [EventName, number]> {
  const places = new Set(kinds.filter((kind) => arcsecondsIn(kind) !== undefined));
  const found = new Map<Kind, readonly [EventName, number]>();
  if (places.size === 0) return found;
  const before = new Map<Kind, number>();
  const after = new Map<Kind, number>();
  let runs = 0;
  const nths = new Map<Kind, number>();
  const angleOf = ({ kind }: Occurrence): number => {
    const nth = nths.get(kind) ?? 0;
    nths.set(kind, nth + 1);
    return arcsecondsIn(kind)?.[nth] ?? NaN;
  };
  const values = timeline.map((one) => (places.has(one.kind) ? angleOf(one) : NaN));
  for (let i = 0; i < timeline.length; i++) {
    const first = values[i] ?? NaN;
    if (!(first >= AWAY)) continue;
    let last = i;
    while ((values[last + 1] ?? NaN) >= 0) last++;
    const opens = timeline[i - 1]?.kind;
    const lastKind = timeline[last]?.kind;
    // The last of them may say that the offset is now small enough.
    const closes = last > i && lastKind !== timeline[i]?.kind ? lastKind : timeline[last + 1]?.kind;
    runs++;
    if (opens !== undefined) before.set(opens, (before.get(opens) ?? 0) + 1);
    if (closes !== undefined) after.set(closes, (after.get(closes) ?? 0) + 1);
    i = last;
  }
  if (runs < MIN_RUNS) return found;
  const put = (counts: ReadonlyMap<Kind, number>, event: EventName): void => {
    for (const [kind, count] of counts) {
      if (count < MIN_RUNS || count < MOST * kind.count || count < MOST * runs || hasFile(kind)) continue;
      const others = [...(own.get(kind) ?? [])].filter(([name]) => name !== event);
      const said = others.filter(([name]) => !ELSEWHERE.test(name));
      if (Math.max(0, ...said.map(([, value]) => value)) <= SAID_CLEARLY) found.set(kind, [event, AROUND]);
    }
  };
  put(before, 'centre-begin');
  put(after, 'centre-end');
  return found;
}
