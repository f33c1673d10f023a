import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { wordEvidence } from '../lexicon/word-evidence.js';

/** There is at least one dither for ten exposures (common practice, no source). */
const OF_EXPOSURES = 0.1;
/** Dithers per waiting train: at most two trains wait for the same dither. */
const OF_WAITS = 0.5;
/** Fewer lines than this fraction of the expected dithers are not dithers. */
const SHARE = 0.5;
const DITHERS: readonly EventName[] = ['dither-begin', 'dither-end'];

/**
 * Kinds classified as dithers by position alone that are too rare: if the log reports trains waiting for dithers, or
 * exposing, a few lines about the disk or the dew heater merely fill the gap.
 */
export function fewDithers(taken: ReadonlyMap<Kind, EventName>): Kind[] {
  const linesOf = (events: readonly EventName[], kinds = [...taken]): number =>
    kinds.reduce((sum, [kind, event]) => sum + (events.includes(event) ? kind.count : 0), 0);
  const named = [...taken].filter(([kind, event]) => DITHERS.includes(event) && saysDither(kind));
  const wanted = Math.max(
    ...DITHERS.map((event) => linesOf([event], named)),
    OF_WAITS * linesOf(['dither-ready']),
    OF_EXPOSURES * Math.max(linesOf(['exposure-begin']), linesOf(['exposure-end'])),
  );
  return [...taken].flatMap(([kind, event]) =>
    DITHERS.includes(event) && !saysDither(kind) && kind.count < SHARE * wanted ? [kind] : [],
  );
}

/** Whether words or field names mention a dither. */
function saysDither({ wording, hints, lead }: Kind): boolean {
  const said = wordEvidence(wording, hints, lead);
  return DITHERS.some((event) => (said.get(event) ?? 0) > 0);
}
