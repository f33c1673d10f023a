import { endOf, type EventName, otherSideOf } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import type { Occurrence } from './occurrences.js';

/** Fewer lines alternate by accident. */
const MIN_LINES = 3;
/** Minimum fraction of a kind's lines that alternate one by one. */
const IN_TURN = 0.8;

/** What a kind most likely reports, though without sufficient certainty on its own. */
export interface Doubtful {
  readonly kind: Kind;
  readonly event: EventName;
}

/**
 * Kinds confirmed by others: their likeliest event is one side of a span whose other side is taken, no other kind
 * reports it, and the lines of both alternate one by one. That outweighs how well the rest of the timeline fits.
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
  // Of several candidates for the same answer only one can be right, and it is unknown which.
  return borneOut.filter(({ event }) => borneOut.filter((one) => one.event === event).length === 1);
}

/** Whether a kind and the others alternate one by one, starting with the begin. */
function comeInTurn(kind: Kind, others: ReadonlySet<Kind>, timeline: readonly Occurrence[], isBegin: boolean): boolean {
  const own = timeline.filter((one) => one.kind === kind || others.has(one.kind));
  const isOwn = own.map((one) => one.kind === kind);
  if (isOwn[0] !== isBegin) return false;
  const turns = isOwn.slice(1).filter((is, i) => is !== isOwn[i]).length;
  return turns >= IN_TURN * (own.length - 1);
}
