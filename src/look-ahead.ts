/**
 * From progress to outlook: the archive's home site, its sky, and the targets that still need hours.
 */
import {
  elevationOf,
  durationMs,
  increment,
  interval,
  isNarrowband,
  separationDeg,
  sum,
  TWILIGHTS,
  type ArchivedSite,
  type GoalsBook,
  type NightSummary,
  type Outlook,
  type Progress,
} from './model/index.js';
import {
  DEEP_RED_SEPARATION_DEG,
  MOON_SEPARATION_DEG,
  outlookOf,
  WORTH_HOURS,
  type PastNight,
  type Place,
  type SkyAhead,
  type SkyThen,
  type UnfinishedTarget,
} from './outlook/index.js';
import {
  airAtElevation,
  apparentAltitude,
  limitAt,
  makeSkyObserver,
  nightOf,
  nightSpan,
  nightZone,
  type MoonPlace,
  type SkyMoment,
} from './sky/index.js';

/** Altitude limit if no record has one, degrees; the rig file's own default. */
export const USUAL_LIMIT_DEG = 25;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** This long before noon the night just over is behind, ms: `tonight` is the evening to come. */
const MORNING_MS = 6 * 3_600_000;

/**
 * The outlook from the site with most nights; `null` when no site is known.
 *
 * @param siteKey the same text for nights of one site, `null` if unknown
 * @param when the first evening, `YYYY-MM-DD`; without it the evening of `nowMs` (UTC ms), or that after the last night
 */
export function lookAhead(
  { nights, targets }: Progress,
  book: GoalsBook,
  siteKey: (night: NightSummary) => string | null,
  { from, nowMs }: { readonly from?: string; readonly nowMs: number },
): Outlook | null {
  const home = homeOf(nights, siteKey);
  if (home === null) return null;
  const { site, here, last } = home;
  return outlookOf({
    from: from ?? eveningToCome(home, nowMs),
    site: site.name,
    sky: skyAhead(site, last.date),
    assumptions: {
      sunBelowDeg: TWILIGHTS[site.darkness].sunAltitudeDeg,
      minimumAltitudeDeg: site.minimumAltitudeDeg ?? USUAL_LIMIT_DEG,
      hasHorizon: site.horizon.length > 0,
      isLimitKnown: site.minimumAltitudeDeg !== undefined,
      moonSeparationDeg: MOON_SEPARATION_DEG,
      deepRedSeparationDeg: DEEP_RED_SEPARATION_DEG,
      worthHours: WORTH_HOURS,
    },
    targets: targets.flatMap((target) => unfinished(target, book)),
    past: here.flatMap(pastNight),
  });
}

/** The site with most nights, as the latest of them know it. */
export interface Home {
  readonly site: ArchivedSite;
  /** Its nights, oldest first. */
  readonly here: readonly NightSummary[];
  readonly last: NightSummary;
}

/** Finds the home site; `null` if none is known. */
export function homeOf(nights: readonly NightSummary[], siteKey: (night: NightSummary) => string | null): Home | null {
  const counts = new Map<string, number>();
  for (const night of nights) {
    const key = siteKey(night);
    if (key !== null) increment(counts, key);
  }
  const home = [...counts].sort(([, a], [, b]) => b - a)[0]?.[0];
  const here = nights.filter((night) => home !== undefined && siteKey(night) === home);
  const last = here.at(-1);
  const limits = here.findLast((night) => night.site?.minimumAltitudeDeg !== undefined)?.site ?? last?.site;
  if (!last?.site || !limits) return null;
  const site: ArchivedSite = { ...last.site, minimumAltitudeDeg: limits.minimumAltitudeDeg, horizon: limits.horizon };
  return { site, here, last };
}

/** In the morning, when reports are read, the previous night is over: the next one is meant. */
export function eveningToCome({ site, last }: Home, nowMs: number): string {
  const tonight = nightOf(nowMs + MORNING_MS, nightZone(site.timezone, site.longitudeDeg));
  return tonight > last.date ? tonight : nextDate(last.date);
}

function nextDate(date: string): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) + DAY_MS).toISOString().slice(0, 10);
}

function unfinished(
  { name, place, lines }: Progress['targets'][number],
  { narrowband }: GoalsBook,
): UnfinishedTarget[] {
  const wants = lines.flatMap(({ filter, train, goalMs, remainingMs }) =>
    goalMs === null || remainingMs === null || remainingMs <= 0
      ? []
      : [
          {
            filter,
            train,
            hours: remainingMs / HOUR_MS,
            share: remainingMs / goalMs,
            isNarrowband: filter !== null && isNarrowband(filter, narrowband),
          },
        ],
  );
  return place && wants.length > 0 ? [{ name, place, wants }] : [];
}

/** A night relevant for the next ones: its darkness is known, and something was kept. */
function pastNight({ date, isDarkness, window, trains, totals }: NightSummary): PastNight[] {
  const kept = trains.map(({ id }) => [id, sum(totals.filter((t) => t.train === id).map((t) => t.ms.kept))] as const);
  const isTelling = isDarkness && durationMs(window) > 0 && kept.some(([, ms]) => ms > 0);
  return isTelling ? [{ date, darkMs: durationMs(window), keptByTrainMs: Object.fromEntries(kept) }] : [];
}

function daysBetween(from: string, to: string): number {
  return (Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY_MS;
}

/** The sky stage adapted for the outlook; the Moon is computed once per instant, whatever the number of targets. */
export function skyAhead(site: ArchivedSite, lastDate: string): SkyAhead {
  const full = { ...site, name: site.name ?? '', minimumAltitudeDeg: site.minimumAltitudeDeg ?? USUAL_LIMIT_DEG };
  const observer = makeSkyObserver(full);
  const air = airAtElevation(elevationOf(site));
  const clearanceDeg = (altitudeDeg: number, azimuthDeg: number): number =>
    apparentAltitude(altitudeDeg, air) - limitAt(full, azimuthDeg);
  const noonMs = nightSpan(lastDate, nightZone(site.timezone, site.longitudeDeg)).startMs;
  return {
    // Whole days from a local noon: an hour of summer time moves nothing that happens at night.
    span: (date) =>
      interval(noonMs + daysBetween(lastDate, date) * DAY_MS, noonMs + (daysBetween(lastDate, date) + 1) * DAY_MS),
    at: (atMs) => new ThenAbove(observer.at(atMs), clearanceDeg),
  };
}

/** One instant over a site: a class, because an object literal with getters is slow to create and to use. */
class ThenAbove implements SkyThen {
  private seenMoon: MoonPlace | undefined;

  constructor(
    private readonly moment: SkyMoment,
    private readonly clearanceDeg: (altitudeDeg: number, azimuthDeg: number) => number,
  ) {}

  get sunAltitudeDeg(): number {
    return this.moment.sun.altitudeDeg;
  }

  get moonAltitudeDeg(): number {
    return this.moon().altitudeDeg;
  }

  get moonIllumination(): number {
    return this.moment.moonPhase.illumination;
  }

  look(place: Place): ReturnType<SkyThen['look']> {
    const { altitudeDeg, azimuthDeg } = this.moment.direction(place);
    const moon = this.moon();
    return {
      clearanceDeg: this.clearanceDeg(altitudeDeg, azimuthDeg),
      moonSeparationDeg: separationDeg(azimuthDeg, altitudeDeg, moon.azimuthDeg, moon.altitudeDeg),
    };
  }

  private moon(): MoonPlace {
    return (this.seenMoon ??= this.moment.moon);
  }
}
