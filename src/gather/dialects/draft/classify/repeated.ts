import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';

/** Maximum distance between a command and its answer, ms. */
const AT_ONCE_MS = 1500;
/** Minimum number and fraction of repeated lines. */
const MIN_LINES = 3;
const MOST = 0.8;
/** Done by the single mount and guider; there may be two cameras. */
const OF_ONE = /^(?:slew|centre|flip|dither-(?:begin|end)|settling|guiding|star-gap|hold)/;

/**
 * The kinds that repeat what another kind reports at the same moment, as an answer repeats its command: the less
 * certain of each pair.
 */
export function repeated(taken: ReadonlyMap<Kind, EventName>, scoreOf: (kind: Kind) => number): Kind[] {
  const twice = new Set<Kind>();
  for (const [first, event] of taken)
    for (const [second, other] of taken) {
      if (first === second || event !== other || !OF_ONE.test(event)) continue;
      if (twice.has(first) || twice.has(second)) continue;
      if (!answers(first, second) || !answers(second, first)) continue;
      twice.add(scoreOf(first) <= scoreOf(second) ? first : second);
    }
  return [...twice];
}

function answers(kind: Kind, other: Kind): boolean {
  if (kind.count < MIN_LINES) return false;
  const near = kind.atMs.filter((atMs) => other.atMs.some((one) => Math.abs(one - atMs) <= AT_ONCE_MS));
  return near.length >= MOST * kind.count;
}
