import { STATES } from './grammar.js';
import { labelOf } from './labels.js';

const OPEN = STATES.indexOf('exposure-begin');
const CLOSED = STATES.indexOf('exposure-end');
export const ABORTED = STATES.indexOf('exposure-abort');
export const STAR_LOST = labelOf('star-gap-begin');
export const STAR_FOUND = labelOf('star-gap-end');
const SAVED = labelOf('frame-saved');
/** A frame is saved or rejected within this time after its shutter closed or its star was lost, ms. */
export const SOON_MS = 120_000;

/**
 * How well an event fits that runs in parallel with the others: stars are lost while the shutter is open, frames are
 * saved soon after it closes.
 *
 * @param state number of the last state of its train, and the time since then, ms
 * @param closes whether the log reports that shutters close: otherwise the saved file indicates it
 * @returns NaN without evidence
 */
export function besideFit(label: number, state: number, sinceMs: number, closes: boolean): number {
  const open = state === OPEN || (state === CLOSED && sinceMs < 0);
  if (label === STAR_LOST || label === STAR_FOUND)
    return open ? 0.5 : state === CLOSED || state === ABORTED ? -0.6 : -0.1;
  if (label !== SAVED) return NaN;
  if (open) return closes || sinceMs < 0 ? -0.1 : 0.4;
  return sinceMs < SOON_MS ? 0.4 : -0.2;
}
