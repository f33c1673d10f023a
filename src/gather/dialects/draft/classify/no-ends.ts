import { beginOf, endOf } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Decoded } from './decode.js';

/** Fewer kinds that begin something are no habit. */
const MIN_BEGINS = 4;

/**
 * Whether all that a log tells begins: a notebook is written as things are begun, and a line that names a thing without
 * saying which side of it (`filter Ha`, `dither`) is about its beginning.
 *
 * @param least what an event must be worth to be told at all
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
