import { STATES } from './grammar.js';
import { labelOf } from './labels.js';

const OPEN = STATES.indexOf('exposure-begin');
const CLOSED = STATES.indexOf('exposure-end');
export const ABORTED = STATES.indexOf('exposure-abort');
export const STAR_LOST = labelOf('star-gap-begin');
export const STAR_FOUND = labelOf('star-gap-end');
const SAVED = labelOf('frame-saved');
/** A frame is saved, or given up, this soon after its shutter has closed, or its star was lost, ms. */
export const SOON_MS = 120_000;

/**
 * How well an event fits that goes on beside the others: stars are lost while the shutter is open, frames saved soon
 * after it has closed.
 *
 * @param state the last that its train was in, by number, and the time since then, ms
 * @param closes whether the log tells that shutters close: else a file that was saved is what says so
 * @returns NaN where nothing speaks
 */
export function besideFit(label: number, state: number, sinceMs: number, closes: boolean): number {
  const open = state === OPEN || (state === CLOSED && sinceMs < 0);
  if (label === STAR_LOST || label === STAR_FOUND)
    return open ? 0.5 : state === CLOSED || state === ABORTED ? -0.6 : -0.1;
  if (label !== SAVED) return NaN;
  if (open) return closes || sinceMs < 0 ? -0.1 : 0.4;
  return sinceMs < SOON_MS ? 0.4 : -0.2;
}
