/**
 * Targets of the night: those of the rig file, and those that only headers name.
 */
import {
  circularMedianDeg,
  groupBy,
  median,
  panelSpelt,
  separationDeg,
  targetKey,
  type HeaderFrame,
  type Target,
} from '../model/index.js';
import { targetFinder } from './names.js';

/** A frame without a name is assigned to a target this close to its field's centre, degrees. */
const NEAR_DEG = 1;

/** The rig's targets, then one per name found only in headers, at the median of their positions. */
export function nightTargets(configured: readonly Target[], headers: readonly HeaderFrame[]): Target[] {
  const known = targetFinder(configured);
  const unknown = headers.flatMap(({ target, pointing }) =>
    target === undefined || known(target) ? [] : [{ target, pointing }],
  );
  const extra = groupBy(unknown, ({ target }) => targetKey(target));
  const found = [...extra.values()].flatMap((members): Target[] => {
    const placed = members.flatMap(({ pointing }) => pointing ?? []);
    const [first] = members;
    if (first === undefined || placed.length === 0) return [];
    return [
      {
        name: panelSpelt(first.target) ?? first.target,
        aliases: [],
        raDeg: circularMedianDeg(placed.map((place) => place.raDeg)),
        decDeg: median(placed.map((place) => place.decDeg)),
        origin: 'headers',
      },
    ];
  });
  return [...configured, ...found];
}

/** The target at the position of a nameless frame, if any is near. */
export function targetAt(targets: readonly Target[], { pointing }: HeaderFrame): Target | undefined {
  if (pointing === undefined) return undefined;
  return targets.find((t) => separationDeg(t.raDeg, t.decDeg, pointing.raDeg, pointing.decDeg) <= NEAR_DEG);
}
