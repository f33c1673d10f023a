import { beginOf, endOf, type EventName, otherSideOf } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { BY_TRAIN } from './consistency.js';
import type { Occurrence } from './occurrences.js';
import type { TrainOf } from './withdrawal.js';

/** More frequent kinds are judged by the fraction of their lines that contradict others. */
const FEW_LINES = 2;
/** Minimum number of lines reporting one side of a span before the other side counts as missing. */
const MIN_OTHERS = 3;
/** What mount, camera and wheel do for the sake of exposures. */
const FOR_EXPOSURES = /^(?:slew|centre|flip|focus|filter|dither|settling|guiding-begin)/;
/** A night has at least this many exposures. */
const EXPOSURES = 6;

/**
 * The kinds of one or two lines that are misclassified: ends without a begin, begins without an end where others have
 * one, and preparations for exposures after the last exposure: a mount being parked does not slew to a target.
 */
export function stray(
  taken: ReadonlyMap<Kind, EventName>,
  timeline: readonly Occurrence[],
  trainOf: TrainOf,
  isSure: (kind: Kind) => boolean = () => false,
): Set<Kind> {
  const kinds = new Set([...idle(taken, timeline), ...outside(taken, timeline)]);
  const unanswered = contradicted(taken, timeline, trainOf);
  for (const [kind, event] of taken) {
    if (isAimless(kind, event, taken)) kinds.add(kind);
    if (kind.count > FEW_LINES || isSure(kind)) continue;
    const other = otherSideOf(event);
    const others = [...taken].reduce((sum, [one, name]) => sum + (name === other ? one.count : 0), 0);
    if (others >= MIN_OTHERS && (unanswered.get(kind) ?? 0) >= kind.count) kinds.add(kind);
  }
  // The end of such a slew is wrong as well.
  const aimed = new Map([...taken].filter(([kind]) => !kinds.has(kind)));
  const isLess = [...taken].some(([kind, event]) => isAimless(kind, event, taken));
  for (const [kind, count] of isLess ? contradicted(aimed, timeline, trainOf) : [])
    if (aimed.get(kind) === 'slew-end' && kind.count <= FEW_LINES && count >= kind.count) kinds.add(kind);
  return kinds;
}

/** Lines that open the roof before any hold, and those that finally close it: they belong to no hold. */
function outside(taken: ReadonlyMap<Kind, EventName>, timeline: readonly Occurrence[]): Kind[] {
  const firstMs =
    timeline.find(({ kind }) => /^(?:exposure|hold-begin)/.test(taken.get(kind) ?? ''))?.atMs ?? -Infinity;
  const last = timeline.at(-1);
  return [...taken].flatMap(([kind, event]) => {
    if (kind.count > FEW_LINES) return [];
    if (event === 'hold-end') return kind.atMs.every((atMs) => atMs < firstMs) ? [kind] : [];
    return event === 'hold-begin' && kind === last?.kind && kind.count === 1 ? [kind] : [];
  });
}

/** One or two lines about the mount without a target, where others name one: a flip or parking. */
function isAimless(kind: Kind, event: EventName, taken: ReadonlyMap<Kind, EventName>): boolean {
  const isAimed = ({ slots }: Kind): boolean => slots.some(({ type }) => type === 'designation');
  if (event !== 'slew-begin' || kind.count > FEW_LINES || isAimed(kind)) return false;
  return [...taken].some(([one, name]) => name === event && isAimed(one));
}

/** Lines that are all after the last exposure. */
function idle(taken: ReadonlyMap<Kind, EventName>, timeline: readonly Occurrence[]): Kind[] {
  const exposures = timeline.filter(({ kind }) => /^(?:exposure|frame)/.test(taken.get(kind) ?? ''));
  const last = exposures.at(-1);
  if (last === undefined || exposures.length < EXPOSURES) return [];
  return [...taken].flatMap(([kind, event]) =>
    // Within one second or minute the order of lines decides; a table below another is no later for it.
    FOR_EXPOSURES.test(event) &&
    kind.atMs.every((atMs, i) => atMs > last.atMs || (atMs === last.atMs && (kind.lines[i] ?? 0) > last.line))
      ? [kind]
      : [],
  );
}

/** Number of lines of each kind that end what is not open, or begin what begins again before it ends. */
function contradicted(
  taken: ReadonlyMap<Kind, EventName>,
  timeline: readonly Occurrence[],
  trainOf: TrainOf,
): Map<Kind, number> {
  const counts = new Map<Kind, number>();
  const count = (kind: Kind): void => void counts.set(kind, (counts.get(kind) ?? 0) + 1);
  const open = new Map<string, Kind>();
  const nths = new Map<Kind, number>();
  for (const { kind } of timeline) {
    const event = taken.get(kind);
    const nth = nths.get(kind) ?? 0;
    nths.set(kind, nth + 1);
    if (event === undefined) continue;
    const begin = beginOf(event);
    const train = BY_TRAIN.test(event) ? trainOf(kind, nth) : -1;
    const key = `${begin ?? event} ${train}`;
    if (begin !== undefined) {
      if (!open.delete(key)) count(kind);
    } else if (endOf(event) !== undefined) {
      const before = open.get(key);
      if (before !== undefined) count(before);
      open.set(key, kind);
    }
  }
  for (const kind of open.values()) count(kind);
  return counts;
}
