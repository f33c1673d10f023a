/**
 * Targets of the night: those of the rig file, and those that only headers name.
 */
import { median, type HeaderFrame, type Target } from '../model/index.js';
import { fold, targetFinder } from './names.js';

/** A frame without a name is given to the target this near to its field's centre, degrees. */
const NEAR_DEG = 1;

/** The rig's targets, then one per name that only the headers know, placed by the median of their positions. */
export function nightTargets(configured: readonly Target[], headers: readonly HeaderFrame[]): Target[] {
  const known = targetFinder(configured);
  const extra = new Map<string, HeaderFrame[]>();
  for (const header of headers) {
    if (header.kind !== 'light' || header.target === undefined || known(header.target)) continue;
    const key = fold(header.target);
    const group = extra.get(key);
    if (group) group.push(header);
    else extra.set(key, [header]);
  }
  const found = [...extra.values()].flatMap((members): Target[] => {
    const placed = members.filter((m) => m.raDeg !== undefined && m.decDeg !== undefined);
    const origin = placed[0]?.raDeg;
    if (origin === undefined) return [];
    const turn = median(placed.map((m) => ((m.raDeg! - origin + 540) % 360) - 180));
    return [
      {
        name: members[0]!.target!,
        aliases: [],
        raDeg: (origin + turn + 360) % 360,
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
  return targets.find((t) => {
    const dRa = (((t.raDeg - raDeg + 540) % 360) - 180) * Math.cos((decDeg * Math.PI) / 180);
    return Math.hypot(dRa, t.decDeg - decDeg) <= NEAR_DEG;
  });
}
