import { beginOf, endOf } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Decoded } from './decode.js';

/** Fewer kinds of begins are no pattern. */
const MIN_BEGINS = 4;

/**
 * Whether a log reports only begins: a notebook is written as things begin, and a line that names a thing without its
 * side (`filter Ha`, `dither`) is about its begin.
 *
 * @param least minimum evidence for an event to count
 */
export function tellsNoEnds(rankings: ReadonlyMap<Kind, Decoded>, least: number): boolean {
  let begins = 0;
  for (const { ranking } of rankings.values()) {
    const [best] = ranking;
    if (best === undefined || best[1] < least) continue;
    if (beginOf(best[0]) !== undefined) return false;
    if (endOf(best[0]) !== undefined) begins++;
  }
  return begins >= MIN_BEGINS;
}
