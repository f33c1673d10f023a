import { endOf, type EventName, otherSideOf } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Occurrence } from './occurrences.js';

/** Fewer lines answer others by accident. */
const MIN_LINES = 3;
/** Lines of a kind that are answered, or answer, one by one. */
const IN_TURN = 0.8;

/** What a kind most likely tells, though not surely enough by itself. */
export interface Doubtful {
  readonly kind: Kind;
  readonly event: EventName;
}

/**
 * Kinds that are borne out by others: what they most likely tell is the one side of a thing whose other side is taken,
 * is told by nothing else, and the lines of both come in turn, one by one. How well the rest of the night fits counts
 * for less than that.
 */
export function answered(
  doubtful: readonly Doubtful[],
  taken: ReadonlyMap<Kind, EventName>,
  timeline: readonly Occurrence[],
): Doubtful[] {
  const borneOut = doubtful.filter(({ kind, event }) => {
    const other = otherSideOf(event);
    if (kind.count < MIN_LINES || other === undefined || event.startsWith('exposure')) return false;
    const sides = [...taken].filter(([, name]) => name === event || name === other);
    if (sides.some(([, name]) => name === event)) return false;
    const others = new Set(sides.map(([one]) => one));
    return others.size > 0 && comeInTurn(kind, others, timeline, endOf(event) !== undefined);
  });
  // Of several that answer the same only one can: which is not known.
  return borneOut.filter(({ event }) => borneOut.filter((one) => one.event === event).length === 1);
}

/** Whether a kind and others follow each other, one by one, and the one that begins comes first. */
function comeInTurn(kind: Kind, others: ReadonlySet<Kind>, timeline: readonly Occurrence[], isBegin: boolean): boolean {
  const own = timeline.filter((one) => one.kind === kind || others.has(one.kind));
  const isOwn = own.map((one) => one.kind === kind);
  if (isOwn[0] !== isBegin) return false;
  const turns = isOwn.slice(1).filter((is, i) => is !== isOwn[i]).length;
  return turns >= IN_TURN * (own.length - 1);
}
