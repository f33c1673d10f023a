/**
 * Frames with few stars, registered to the reference by way of neighbouring frames. Under dew, frost or thin cloud only
 * the brightest stars are left, and a dither may have moved some of those off the reference's field: the previous frame
 * still shows them.
 */
import type { Registered } from '../../model/index.js';
import { type Reference, referenceOf, register, SAME_TRAIN } from './register.js';
import { compose } from './similarity.js';
import type { StarList } from './star-list.js';

/** With more stars than these an unregistered frame shows another field. */
const FEW_STARS = 40;
/** Number of frames tried for one, nearest in time first. */
const MOST_TRIED = 6;

interface Listed {
  readonly startMs: number;
  readonly list: StarList;
}

/** The registration of a frame with few stars; `null` if none of the neighbouring frames determines it. */
export type ThroughOthers = (frame: Listed) => Registered | null;

/** @param laid frames on the reference; those found may be added on the way */
export function throughOthers(laid: readonly (Listed & { readonly on: Registered })[]): ThroughOthers {
  const prepared = new Map<StarList, Reference>();
  const referenceFor = (list: StarList): Reference => {
    const known = prepared.get(list) ?? referenceOf(list);
    prepared.set(list, known);
    return known;
  };
  return ({ startMs, list }) => {
    if (list.count > FEW_STARS) return null;
    const beside = [...laid]
      .sort((a, b) => Math.abs(a.startMs - startMs) - Math.abs(b.startMs - startMs))
      .slice(0, MOST_TRIED);
    for (const other of beside) {
      const answer = register(referenceFor(other.list), list, SAME_TRAIN);
      if (answer.state !== 'registered') continue;
      return {
        ...answer,
        similarity: compose(answer.similarity, other.on.similarity),
        residualPx: Math.hypot(answer.residualPx, other.on.residualPx),
        falseAlarm: Math.max(answer.falseAlarm, other.on.falseAlarm),
      };
    }
    return null;
  };
}
