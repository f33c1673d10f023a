import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Stated } from './durations.js';
import { withoutAmid } from './mid-span.js';
import { aroundPlaces, putAround } from './around-places.js';
import { filterInPlace } from './lone-filter.js';
import { isDebug } from './levels.js';
import type { Occurrence } from './occurrences.js';
import { hasFile, ownEvidence, STATED, type Candidate } from './own-evidence.js';
import { againstValues } from './priors.js';
import { unnamedExposures } from './unnamed-exposures.js';
import { comesTooOften } from './usual-counts.js';
import { onTime, type StatedExposure } from './structure.js';

/** This many lines at the expected end of exposures report that end. */
const ON_TIME = 0.8;
/** A log that names saved files does so on every such line. */
const NAMELESS = 2;
/** Penalty for debug lines if another line reports the event, and if none does. */
const DETAIL = 2;
const DETAIL_ALONE = 0.4;
const CLEAR = 2;
/** Words that name a thing explicitly count more. */
const OUTRIGHT = 2;

/** The evidence of the words and values of all kinds, each seen in context. */
export function weighedEvidence(
  candidates: readonly Candidate[],
  timeline: readonly Occurrence[],
  stated: readonly StatedExposure[],
  durations: ReadonlyMap<Kind, Stated>,
): { readonly own: ReadonlyMap<Kind, Map<EventName, number>>; readonly exposures: number } {
  const kinds = candidates.map(({ kind }) => kind);
  const own = new Map(candidates.map((one) => [one.kind, ownEvidence(one, stated, durations.get(one.kind))] as const));
  unnamedExposures(own);
  for (const [kind, share] of onTime(stated, timeline)) {
    const evidence = own.get(kind);
    // An event that follows the closing of a shutter, such as a dither, may replace a closing that no line reports.
    if (share >= ON_TIME && !hasFile(kind) && !speaksForAnother(evidence))
      evidence?.set('exposure-end', (evidence.get('exposure-end') ?? 0) + STATED * share * 0.5);
  }
  const namesFiles = kinds.some((kind) => hasFile(kind) && (own.get(kind)?.get('frame-saved') ?? 0) > 2);
  if (namesFiles) {
    for (const [kind, evidence] of own) {
      const value = evidence.get('frame-saved');
      if (value !== undefined && !hasFile(kind)) evidence.set('frame-saved', value - NAMELESS);
    }
  }
  const exposures = Math.max(
    0,
    ...kinds
      .filter((kind) => (own.get(kind)?.get('exposure-begin') ?? own.get(kind)?.get('exposure-end') ?? 0) >= 3)
      .map(({ count }) => count),
  );
  for (const [kind, more] of aroundPlaces(kinds, timeline, own)) {
    const evidence = own.get(kind);
    if (evidence !== undefined) putAround(evidence, more);
  }
  for (const [kind, evidence] of own)
    for (const [event, value] of evidence) evidence.set(event, value + againstValues(kind, event, exposures));
  for (const [kind, evidence] of own)
    for (const [event, value] of evidence)
      if (value < OUTRIGHT && comesTooOften(event, kind.count)) evidence.delete(event);
  filterInPlace(own);
  withoutAmid(own, timeline);
  withoutDetails(own);
  return { own, exposures };
}

/** The events with the most evidence: a line about the begin of a dither also contains words for its end. */
function clearest(evidence: ReadonlyMap<EventName, number>): EventName[] {
  const most = Math.max(...evidence.values());
  return most < CLEAR ? [] : [...evidence].flatMap(([event, value]) => (value === most ? [event] : []));
}

/** Whether words or values clearly indicate something other than an exposure. */
function speaksForAnother(evidence: ReadonlyMap<EventName, number> = new Map()): boolean {
  return [...evidence].some(([event, value]) => value >= CLEAR && !/^(?:exposure-|frame-)/.test(event));
}

/** Reduces the evidence of debug lines for what other lines report: the relevant line is not at debug level. */
function withoutDetails(own: ReadonlyMap<Kind, Map<EventName, number>>): void {
  const details = [...own].filter(([kind]) => isDebug(kind));
  if (details.length === 0 || details.length === own.size) return;
  const said = new Set([...own].flatMap(([kind, evidence]) => (isDebug(kind) ? [] : clearest(evidence))));
  for (const [, evidence] of details)
    for (const [event, value] of evidence) evidence.set(event, value - (said.has(event) ? DETAIL : DETAIL_ALONE));
}
