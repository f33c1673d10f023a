import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { wordEvidence } from '../lexicon/word-evidence.js';

/** A dither comes after every tenth exposure at the least (common practice, no source). */
const OF_EXPOSURES = 0.1;
/** Dithers as many trains wait for: two at most wait for the same. */
const OF_WAITS = 0.5;
/** Fewer lines than this share of the dithers that there must be tell none. */
const SHARE = 0.5;
const DITHERS: readonly EventName[] = ['dither-begin', 'dither-end'];

/**
 * Kinds that were taken for dithers by where they stand alone, and come too seldom for that: where the log tells that
 * trains wait for dithers, or that they expose, a few lines on the disk or the dew fill the gap that it leaves.
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

/** Whether words or the names of fields tell of a dither. */
function saysDither({ wording, hints, lead }: Kind): boolean {
  const said = wordEvidence(wording, hints, lead);
  return DITHERS.some((event) => (said.get(event) ?? 0) > 0);
}
