import { STATES } from './grammar.js';
import { type Labels, STATE_OF, UNTAKEN } from './labels.js';

const DITHERED = STATES.indexOf('dither-end');
const OF_SETTLING = [STATES.indexOf('settling-begin'), STATES.indexOf('settling-end')];
/** Settling events per dither below which they are not tied to dithers. */
const SELDOM = 0.25;

/**
 * The states that a log reports, one bit each, and the state of each kind in `states`: reported states may not be
 * skipped.
 *
 * @param linesOf number of lines of each kind
 * @param states filled in: state number by kind, −1 for none
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
  // Settling that is only reported when guiding starts is skipped after dithers.
  for (const state of OF_SETTLING) if ((lines[state] ?? 0) < SELDOM * (lines[DITHERED] ?? 0)) logged &= ~(1 << state);
  return logged;
}
