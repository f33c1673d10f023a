/**
 * Targets of the night: those of the rig file, and those that only headers name.
 */
import {
  circularMedianDeg,
  groupBy,
  median,
  separationDeg,
  targetKey,
  type HeaderFrame,
  type Target,
} from '../model/index.js';
import { targetFinder } from './names.js';

/** A frame without a name is given to the target this near to its field's centre, degrees. */
const NEAR_DEG = 1;

/** The rig's targets, then one per name that only the headers know, placed by the median of their positions. */
export function nightTargets(configured: readonly Target[], headers: readonly HeaderFrame[]): Target[] {
  const known = targetFinder(configured);
  const unknown = headers.filter((h) => h.kind === 'light' && h.target !== undefined && !known(h.target));
  const extra = groupBy(unknown, (h) => targetKey(h.target ?? ''));
  const found = [...extra.values()].flatMap((members): Target[] => {
    const placed = members.filter((m) => m.raDeg !== undefined && m.decDeg !== undefined);
    if (placed.length === 0) return [];
    return [
      {
        name: members[0]!.target!,
        aliases: [],
        raDeg: circularMedianDeg(placed.map((m) => m.raDeg!)),
        decDeg: median(placed.map((m) => m.decDeg!)),
        origin: 'headers',
      },
    ];
  });
  return [...configured, ...found];
}

/** The target whose place a nameless frame shows, if any is near. */
export function targetAt(targets: readonly Target[], header: HeaderFrame): Target | undefined {
  const { raDeg, decDeg } = header;
  if (raDeg === undefined || decDeg === undefined) return undefined;
  return targets.find((t) => separationDeg(t.raDeg, t.decDeg, raDeg, decDeg) <= NEAR_DEG);
}
