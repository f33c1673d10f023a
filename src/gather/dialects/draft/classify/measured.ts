import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { saysMotion } from '../lexicon/said.js';

/** More lines than these measure stars, where other lines tell that they are focused. */
const MIN_LINES = 4;

/**
 * The kinds that only measure: `1025 stars, fwhm 2.15 px`, said of most frames, is no refocus where other lines say
 * that one begins or is done, and more seldom.
 */
export function measuring(taken: ReadonlyMap<Kind, EventName>): Kind[] {
  const focused = [...taken].filter(([, event]) => event === 'focus-begin' || event === 'focus-end');
  const told = focused.filter(([{ wording }]) => saysMotion(wording));
  const runs = told.reduce((sum, [{ count }]) => sum + count, 0);
  return told.length === 0
    ? []
    : focused.flatMap(([kind]) =>
        kind.count >= MIN_LINES && kind.count > runs / 2 && !saysMotion(kind.wording) ? [kind] : [],
      );
}
