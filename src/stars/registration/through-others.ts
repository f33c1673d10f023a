/**
 * Frames with few stars, laid on the reference by way of frames beside them. Under dew, frost or thin cloud the
 * brightest stars alone are left, and a dither may have carried some of those off the reference's field: the frame
 * before it still shows them.
 */
import type { Registered } from '../../model/index.js';
import { type Reference, referenceOf, register, SAME_TRAIN } from './register.js';
import { compose } from './similarity.js';
import type { StarList } from './star-list.js';

/** With more stars than these a frame that cannot be laid on the reference shows another field. */
const FEW_STARS = 40;
/** Frames that are tried for one, the nearest in time first. */
const MOST_TRIED = 6;

interface Listed {
  readonly startMs: number;
  readonly list: StarList;
}

/** How a frame with few stars lies on the reference; `null` where none of the frames beside it says. */
export type ThroughOthers = (frame: Listed) => Registered | null;

/** @param laid frames on the reference; those that are found may be added on the way */
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
