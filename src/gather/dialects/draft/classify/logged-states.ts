import { STATES } from './grammar.js';
import { type Labels, STATE_OF, UNTAKEN } from './labels.js';

const DITHERED = STATES.indexOf('dither-end');
const OF_SETTLING = [STATES.indexOf('settling-begin'), STATES.indexOf('settling-end')];
/** Beginnings or ends of settling, of all dithers, where a log tells them after dithers. */
const SELDOM = 0.25;

/**
 * The states that a log tells, a bit each, and that of each kind in `states`: those that are told may not be passed
 * over.
 *
 * @param linesOf how many lines each kind has
 * @param states filled: by kind the number of its state, −1 for none
 */
export function loggedStates(labels: Labels, linesOf: Int32Array, states: Int8Array): number {
  let logged = 0;
  const lines = new Int32Array(STATES.length);
  for (let kind = 0; kind < states.length; kind++) {
    const state = STATE_OF[labels[kind] ?? UNTAKEN] ?? -1;
    states[kind] = state;
    if (state < 0) continue;
    logged |= 1 << state;
    lines[state] = (lines[state] ?? 0) + (linesOf[kind] ?? 0);
  }
  // Settling that is told where guiding starts alone is passed over after dithers.
  for (const state of OF_SETTLING) if ((lines[state] ?? 0) < SELDOM * (lines[DITHERED] ?? 0)) logged &= ~(1 << state);
  return logged;
}
