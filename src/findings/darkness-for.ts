/**
 * How dark it must be for a filter: broad bands need the astronomical night, narrow ones the nautical one (common
 * practice, no source).
 */
import {
  intersect,
  interval,
  isNarrowband,
  type DarknessKind,
  type Interval,
  type NightFacts,
} from '../model/index.js';

/** The darkness that a filter needs. */
export function kindFor(filter: string | undefined): DarknessKind {
  return filter !== undefined && isNarrowband(filter) ? 'nautical' : 'astronomical';
}

/** The darkness that a filter needs, within the night's window; `null` where it does not get that dark. */
export function darknessFor(filter: string | undefined, { sky: { almanac, window } }: NightFacts): Interval | null {
  const kind = kindFor(filter);
  if (almanac === null || almanac.window.asked === kind) return window;
  const { duskMs, dawnMs } = almanac.twilight[kind];
  return duskMs === null || dawnMs === null ? null : intersect(interval(duskMs, Math.max(duskMs, dawnMs)), window);
}
