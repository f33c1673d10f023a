/**
 * One target under two names: `M 31` on one train and `Andromeda` on the other are two lines of integration, and no
 * goal sees both. Names at one position are not merged automatically: one train may have two of them on purpose.
 */
import { groupBy, listed, separationDeg, type Frame, type Target, type Warning } from '../model/index.js';

/** Names this close to each other are assumed to be one target, degrees: less than any field's width. */
const ONE_PLACE_DEG = 0.1;

/** A notice for each target that trains name differently, with the rig file line that merges the names. */
export function targetsApart(
  frames: readonly Pick<Frame, 'kind' | 'train' | 'target'>[],
  targets: readonly Target[],
): Warning[] {
  const lights = frames.filter(({ kind, target }) => kind === 'light' && target !== undefined);
  const trainsOf = new Map(
    [...groupBy(lights, ({ target }) => target)].map(([name, own]) => [name, new Set(own.map(({ train }) => train))]),
  );
  const imaged = targets.filter(({ name }) => trainsOf.has(name));
  return imaged.flatMap((one, i): Warning[] => {
    const others = imaged.slice(i + 1).filter((other) => {
      const isNear = separationDeg(one.raDeg, one.decDeg, other.raDeg, other.decDeg) <= ONE_PLACE_DEG;
      return isNear && ![...(trainsOf.get(one.name) ?? [])].some((train) => trainsOf.get(other.name)?.has(train));
    });
    if (others.length === 0) return [];
    const whose = [one, ...others].map(({ name }) => `“${name}” (${[...(trainsOf.get(name) ?? [])].join(', ')})`);
    // Every name that either has already stays.
    const names = [...one.aliases, ...others.flatMap(({ name, aliases }) => [name, ...aliases])];
    const aliases = [...new Set(names)].map((name) => JSON.stringify(name)).join(', ');
    return [
      {
        code: 'targets-apart',
        message:
          `${listed(whose)} lie at the same position and are counted as ${others.length + 1} targets; if they are ` +
          `one, write targets: [ { name: ${JSON.stringify(one.name)}, aliases: [ ${aliases} ], ra: ` +
          `${one.raDeg.toFixed(4)}, dec: ${one.decDeg.toFixed(4)} } ] in the rig file`,
      },
    ];
  });
}
