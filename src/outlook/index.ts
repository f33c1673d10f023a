/** The outlook: what the coming nights offer for unfinished targets. The sky is passed in. */
import {
  MOON_DISTANCE_DEG,
  sum,
  type NightHours,
  type Outlook,
  type OutlookAssumptions,
  type TargetOutlook,
  type Want,
} from '../model/index.js';
import { addDays } from './dates.js';
import { Futures } from './estimate.js';
import { moonlightOf } from './moonlight.js';
import { nightAhead } from './night-hours.js';
import { paceOf, type PastNight } from './pace.js';
import { monthHours, seasonOf } from './season.js';
import type { Place, SkyAhead } from './sky-ahead.js';

export { LEAST_NIGHTS, type PastNight } from './pace.js';
export type { Place, SkyAhead, SkyThen } from './sky-ahead.js';

/** Nights looked ahead: a year, so that every season comes once. */
export const NIGHTS_AHEAD = 365;
const SEED = 20_261_014;

/**
 * Separation from a full Moon beyond which narrowband is taken under it, less under a smaller one: the tolerance of its
 * blue lines.
 */
export const MOON_SEPARATION_DEG = MOON_DISTANCE_DEG.blueLine;
/** The same for deep red lines, the most tolerant. */
export const DEEP_RED_SEPARATION_DEG = MOON_DISTANCE_DEG.redLine;
/** Hours above the limit in darkness that make a night worthwhile. Common practice, no source. */
export const WORTH_HOURS = 2;

/** An unfinished target. */
export interface UnfinishedTarget {
  readonly name: string;
  readonly place: Place;
  readonly wants: readonly Want[];
}

export interface OutlookQuestion {
  /** First evening, `YYYY-MM-DD`. */
  readonly from: string;
  readonly site: string | null;
  readonly sky: SkyAhead;
  readonly assumptions: OutlookAssumptions;
  readonly targets: readonly UnfinishedTarget[];
  readonly past: readonly PastNight[];
}

/** Looks a year ahead. */
export function outlookOf({ from, site, sky, assumptions, targets, past }: OutlookQuestion): Outlook {
  const places = targets.map((t) => t.place);
  const dates = Array.from({ length: NIGHTS_AHEAD }, (_, i) => addDays(from, i));
  const ahead = dates.map((date) => nightAhead(sky, date, places, assumptions));
  const futures = new Futures(past, dates, SEED);
  const outlooks = targets.map((target, i) =>
    targetOutlook(
      target,
      ahead.flatMap((night) => night.targets[i] ?? []),
      assumptions.worthHours,
      futures,
    ),
  );
  return {
    from,
    site,
    assumptions,
    pace: paceOf(past, from),
    targets: outlooks,
  };
}

function targetOutlook(
  { name, wants }: UnfinishedTarget,
  nights: readonly NightHours[],
  worthHours: number,
  futures: Futures,
): TargetOutlook {
  const season = seasonOf(nights, worthHours);
  const tasks = wants.map((want) => ({ train: want.train, bearsMoon: moonlightOf(want), hours: want.hours }));
  return {
    name,
    season,
    months: monthHours(nights),
    nights,
    remainingHours: sum(wants.map((want) => want.hours)),
    wants: [...wants].sort((a, b) => b.share - a.share || b.hours - a.hours),
    estimate: futures.estimate(nights, tasks, season),
  };
}
