import type { EventName } from '../../../../model/index.js';
import { median } from '../../../../model/statistics.js';
import type { Kind } from '../kinds/kind.js';
import { namesWheel } from '../lexicon/said.js';

/** Guiding goes on for long, and rests for minutes (common practice, no source), ms. */
const GUIDED_MS = 1_200_000;
/** Lead of words that name a flip over those of a slew. */
const NAMES_FLIP = 0.8;

/**
 * Takes away what words seem to say and what only other devices do.
 *
 * @param evidence of the kind, which is changed
 * @param tookMs elapsed durations, ms, if its rows state both ends
 */
export function withoutOthers(evidence: Map<EventName, number>, kind: Kind, tookMs?: readonly number[]): void {
  const types = new Set(kind.slots.map(({ type }) => type));
  // `Wheel leaves R, heading for Ha`: no mount does.
  if (types.has('filter') && !types.has('designation') && namesWheel(kind.wording))
    for (const event of ['slew-begin', 'slew-end'] as const) evidence.delete(event);
  // The mount slews because it flips, which a row with both ends names: it is no slew to the target of the row.
  for (const side of tookMs === undefined ? [] : (['begin', 'end'] as const))
    if ((evidence.get(`flip-${side}`) ?? 0) >= (evidence.get(`slew-${side}`) ?? 0) + NAMES_FLIP)
      evidence.delete(`slew-${side}`);
  if (tookMs !== undefined && evidence.has('guiding-end') && median(tookMs.filter((ms) => ms >= 0)) >= GUIDED_MS)
    for (const event of ['guiding-rest-begin', 'guiding-rest-end'] as const) evidence.delete(event);
}
