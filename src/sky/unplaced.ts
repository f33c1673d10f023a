/** Targets without known coordinates: without them there is no altitude, no air mass and no distance to the Moon. */
import { groupBy, type Frame, type Target, type Warning } from '../model/index.js';

/** Requests the coordinates of imaged targets that have none, with the line to write. */
export function unplacedWarnings(lights: readonly Frame[], targets: readonly Target[]): Warning[] {
  const placed = new Set(targets.map((t) => t.name));
  const unplaced = lights.flatMap(({ target, sources }) =>
    target === undefined || placed.has(target) ? [] : [{ target, source: sources[0] }],
  );
  return [...groupBy(unplaced, (f) => f.target)].map(
    ([name, own]): Warning => ({
      code: 'target-unplaced',
      message:
        `${name} has no coordinates in headers or rig file, so altitude, air mass and distance to ` +
        `the Moon of ${own.length} light${own.length === 1 ? '' : 's'} are not known; under targets: ` +
        `in the rig file write - { name: ${JSON.stringify(name)}, ra: "hh:mm:ss", dec: "+dd:mm:ss" } ` +
        'with its J2000 coordinates',
      source: own[0]?.source,
      count: own.length,
    }),
  );
}
