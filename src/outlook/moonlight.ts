/** Which moonlit hours a want can use. */
import { isDeepRedLine, type NightHours, type Want } from '../model/index.js';

/** Minimum distance from the Moon: as for blue lines, as for deep red ones, or none. */
export type Moonlight = 'far' | 'deep-red' | 'none';

/** A goal over all filters is treated like blue lines. */
export function moonlightOf({ filter, isNarrowband }: Want): Moonlight {
  if (filter === null) return 'far';
  return isNarrowband ? (isDeepRedLine(filter) ? 'deep-red' : 'far') : 'none';
}

/** The moonlit hours of a night for one of a kind. */
export function moonlitHours(night: Pick<NightHours, 'farMoon' | 'deepRedMoon'>, kind: Moonlight): number {
  return { far: night.farMoon, 'deep-red': night.deepRedMoon, none: 0 }[kind];
}
