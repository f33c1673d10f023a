import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';

/** A command and its answer are this near to each other, ms. */
const AT_ONCE_MS = 1500;
/** Lines, and the share of them, that are told again. */
const MIN_LINES = 3;
const MOST = 0.8;
/** What the one mount and the one guider do; of cameras there may be two. */
const OF_ONE = /^(?:slew|centre|flip|dither-(?:begin|end)|settling|guiding|star-gap|hold)/;

/**
 * The kinds that tell once more what another kind tells at the same moment, as an answer repeats its command: of each
 * two the one that is less sure.
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
