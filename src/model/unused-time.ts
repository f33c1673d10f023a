/**
 * Unused darkness: how dark it must be for a filter, and where a train's idle time is. Broad bands need astronomical
 * night, narrow ones nautical night (common practice, no source).
 */
import { isNarrowband, type DarknessKind } from '../vocabulary/index.js';
import type { JudgedFrame } from './accounts.js';
import { clip, coveredMs, durationMs, intersect, interval, union, type Interval } from './interval.js';
import { lightsOf, type Night } from './night.js';
import { statedFilter } from './stated-filter.js';

/** The facts of a light that determine its required darkness. */
type Filtered = Pick<JudgedFrame, 'train' | 'filter'>;

/** The darkness required by a light's filter, from its name or the rig file. */
export function darknessKindFor({ train, filter }: Filtered, { gathered }: Pick<Night, 'gathered'>): DarknessKind {
  return filter !== undefined && isNarrowband(statedFilter(filter, train, gathered.cameras))
    ? 'nautical'
    : 'astronomical';
}

/** The darkness required by a light's filter, within the night's window; `null` if it does not get that dark. */
export function darknessFor(light: Filtered, night: Pick<Night, 'sky' | 'gathered'>): Interval | null {
  const { almanac, window } = night.sky;
  const kind = darknessKindFor(light, night);
  if (almanac === null || almanac.window.kind === kind) return window;
  const { duskMs, dawnMs } = almanac.twilight[kind];
  return duskMs === null || dawnMs === null ? null : intersect(interval(duskMs, Math.max(duskMs, dawnMs)), window);
}

/** When it is dark enough for a light's filter and its target is above its limit, as far as known. */
export function usableFor(light: JudgedFrame, night: Pick<Night, 'sky' | 'gathered'>): Interval[] {
  const dark = darknessFor(light, night);
  const up = night.sky.curves.find((c) => c.target === light.target)?.up;
  return dark === null ? [] : up ? clip(union(up), dark) : [dark];
}

/** Where a train's idle time is: time that was too bright or with the target too low, and usable time. */
export const IDLE_PLACES = {
  twilight: 'too light for the filter',
  low: 'target too low',
  before: 'unused, before the first exposure',
  after: 'unused, after the last exposure',
  between: 'unexplained, between exposures',
} as const;
export type IdlePlace = keyof typeof IDLE_PLACES;

/**
 * A train's unexplained time by position, ms; together it is the ledger's account. `null` if the train took no light,
 * or if only the totals of its ledger are known.
 */
export function idleTime(
  night: Pick<Night, 'sky' | 'accounts' | 'gathered'>,
  train: string,
): Readonly<Record<IdlePlace, number>> | null {
  const lights = lightsOf(night, train);
  const segments = night.accounts.ledgers.find((l) => l.train === train)?.segments ?? [];
  const [first] = lights;
  const last = lights.at(-1);
  if (!first || !last || segments.length === 0) return null;
  const endMs = Math.max(...lights.map((f) => f.exposure.endMs));
  const places = { twilight: 0, low: 0, before: 0, after: 0, between: 0 };
  for (const { account, span } of segments) {
    if (account !== 'unexplained') continue;
    const isBefore = span.endMs <= first.exposure.startMs;
    const edge = isBefore ? first : span.startMs >= endMs ? last : null;
    if (edge === null) {
      places.between += durationMs(span);
      continue;
    }
    const dark = darknessFor(edge, night);
    const darkMs = dark === null ? 0 : coveredMs(clip([dark], span));
    const usableMs = coveredMs(clip(usableFor(edge, night), span));
    places.twilight += durationMs(span) - darkMs;
    places.low += darkMs - usableMs;
    places[isBefore ? 'before' : 'after'] += usableMs;
  }
  return places;
}
