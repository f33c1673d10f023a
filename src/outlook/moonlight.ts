/** Which moonlit hours a want can be taken in. */
import { isDeepRedLine, type NightHours, type Want } from '../model/index.js';

/** Beyond what distance from the Moon: as blue lines bear it, as deep red ones do, or none. */
export type Moonlight = 'far' | 'deep-red' | 'none';

/** A goal over all filters does not ask, and is taken as blue lines are. */
export function moonlightOf({ filter, isNarrowband }: Want): Moonlight {
  if (filter === null) return 'far';
  return isNarrowband ? (isDeepRedLine(filter) ? 'deep-red' : 'far') : 'none';
}

/** The moonlit hours of a night for one of a kind. */
export function moonlitHours(night: Pick<NightHours, 'farMoon' | 'deepRedMoon'>, kind: Moonlight): number {
  return { far: night.farMoon, 'deep-red': night.deepRedMoon, none: 0 }[kind];
}
