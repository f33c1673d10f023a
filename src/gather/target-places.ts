/**
 * Coordinates of targets that the rig file names without any: those of their frames' headers. A target that no header
 * places either is unusable, and reported as left out.
 */
import type { Rig, TargetConfig, UnplacedTarget } from '../config/index.js';
import {
  circularMedianDeg,
  listed,
  median,
  targetKey,
  type HeaderFrame,
  type Target,
  type Warning,
} from '../model/index.js';

type Place = Pick<Target, 'raDeg' | 'decDeg'>;

/** The rig with each target that has no place put where the headers of its frames point, J2000. */
export function placedByHeaders(
  rig: Rig,
  headers: readonly HeaderFrame[],
): { readonly rig: Rig; readonly warnings: Warning[] } {
  return placed(rig, (keys) => {
    const own = headers.flatMap(({ target, pointing }) =>
      target !== undefined && pointing !== undefined && keys.has(targetKey(target)) ? [pointing] : [],
    );
    if (own.length === 0) return undefined;
    return { raDeg: circularMedianDeg(own.map(({ raDeg }) => raDeg)), decDeg: median(own.map(({ decDeg }) => decDeg)) };
  });
}

/** The same for a night that is judged again: by the places that its targets had. */
export function placedAsBefore(rig: Rig, targets: readonly Target[]): Rig {
  return placed(rig, (keys) =>
    targets.find(({ name, aliases }) => [name, ...aliases].some((one) => keys.has(targetKey(one)))),
  ).rig;
}

function placed(
  rig: Rig,
  placeOf: (keys: ReadonlySet<string>) => Place | undefined,
): { readonly rig: Rig; readonly warnings: Warning[] } {
  const { unplaced = [], ...rest } = rig;
  if (unplaced.length === 0) return { rig, warnings: [] };
  const found = unplaced.map((target) => ({
    target,
    place: placeOf(new Set([target.name, ...target.aliases].map(targetKey))),
  }));
  const targets = found.flatMap(({ target, place }): TargetConfig[] =>
    place ? [{ ...target, raDeg: place.raDeg, decDeg: place.decDeg, origin: 'headers' }] : [],
  );
  const without = found.flatMap(({ target, place }) => (place ? [] : [target]));
  return {
    rig: { ...rest, targets: [...rig.targets, ...targets] },
    warnings: without.length > 0 ? [leftOut(without)] : [],
  };
}

function leftOut(targets: readonly UnplacedTarget[]): Warning {
  const names = listed(targets.map(({ name }) => name));
  const [it, its] = targets.length === 1 ? ['it is', 'its'] : ['they are', 'their'];
  return {
    code: 'target-without-place',
    message:
      `the rig file gives no coordinates of ${names}, and no header of ${its} frames does: ${it} left out, with ` +
      `${its} goals. Write ra: and dec: under targets:`,
    count: targets.length,
  };
}
