/**
 * From progress and outlook to the plan: trains as their nights show them, the sky of the coming nights, and what is
 * missing.
 */
import type { Rig } from './config/index.js';
import { eveningToCome, homeOf, USUAL_LIMIT_DEG } from './look-ahead.js';
import {
  elevationOf,
  hull,
  median,
  TWILIGHTS,
  type GoalsBook,
  type NightSummary,
  type Outlook,
  type Plan,
  type PlannedLeft,
  type Progress,
} from './model/index.js';
import { assumptionsOf, leftAfter, MOST_TARGETS, planNights, type PlanTarget } from './plan/index.js';
import { BROADBAND_MOON_MAG, nightToPlan } from './plan-sky.js';
import { trainsToPlan } from './plan-trains.js';
import { darkStretches, makeSkyObserver, nightSpan, nightZone, type Place } from './sky/index.js';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** Default if no dither was recorded. Common practice, no source. */
const USUAL_DITHER_MS = 25_000;

export interface PlanOptions {
  /** First evening, `YYYY-MM-DD`; without it the evening to come. */
  readonly from?: string;
  readonly nights: number;
  readonly nowMs: number;
  /** Apertures by train, mm, where a rig file names them. */
  readonly aperturesMm?: ReadonlyMap<string, number>;
  /** Trains to plan; without them those of the latest night. */
  readonly trains?: readonly string[];
  /** The rig whose trains are planned. */
  readonly rig?: Rig;
}

/**
 * The plan from the site with most nights; `null` when no site is known.
 *
 * @throws Error for a requested train that the site has never had
 */
export function planAhead(
  progress: Progress,
  outlook: Outlook | null,
  book: GoalsBook,
  siteKey: (night: NightSummary) => string | null,
  options: PlanOptions,
): Plan | null {
  const home = homeOf(progress.nights, siteKey);
  if (home === null) return null;
  const { site, here } = home;
  const from = options.from ?? eveningToCome(home, options.nowMs);
  const zone = nightZone(site.timezone, site.longitudeDeg);
  const limitDeg = site.minimumAltitudeDeg ?? USUAL_LIMIT_DEG;
  const observer = makeSkyObserver({ ...site, name: site.name ?? '', minimumAltitudeDeg: limitDeg });
  const wanted = progress.targets.flatMap((target) => targetToPlan(target, outlook, book, from));
  const places = wanted.map(({ place }) => place);
  const { trains, sentence } = trainsToPlan(here, progress, book, { ...options, wanted: options.trains });
  const dithers = here.flatMap((night) => night.ditherMs ?? []);
  const ditherMs = dithers.length > 0 ? median(dithers) : USUAL_DITHER_MS;
  const nights = Array.from({ length: options.nights }, (_, day) => {
    const date = new Date(Date.parse(`${from}T00:00:00Z`) + day * DAY_MS).toISOString().slice(0, 10);
    const dark = hull(darkStretches(observer, nightSpan(date, zone), site.darkness));
    return nightToPlan(date, dark, places, observer, elevationOf(site), book);
  });
  const question = {
    nights,
    trains,
    targets: wanted.map(({ target }) => target),
    narrowband: book.narrowband,
    ditherMs,
  };
  const planned = planNights(question);
  return {
    from,
    site: site.name,
    zone,
    trains: trains.map(({ id }) => id),
    nights: planned,
    left: [...leftAfter(question, planned), ...progress.targets.flatMap(withoutPlace)],
    assumptions: assumptionsOf({
      sunBelowDeg: TWILIGHTS[site.darkness].sunAltitudeDeg,
      limitDeg: site.horizon.length > 0 ? null : limitDeg,
      broadbandMoonMag: BROADBAND_MOON_MAG,
      ditherSeconds: dithers.length > 0 ? ditherMs / 1000 : null,
      isCrowded: wanted.length > MOST_TARGETS,
      trains,
      whichTrains: sentence,
    }),
  };
}

/** What a goal still needs, line by line. */
function openLinesOf({ lines }: Progress['targets'][number]): PlanTarget['lines'] {
  return lines.flatMap(({ filter, train, goalMs, remainingMs }) =>
    goalMs === null || remainingMs === null || remainingMs <= 0
      ? []
      : [{ filter, train, hours: remainingMs / HOUR_MS, share: remainingMs / goalMs }],
  );
}

function withoutPlace(target: Progress['targets'][number]): PlannedLeft[] {
  if (target.place !== null) return [];
  return openLinesOf(target).map(({ filter, train, hours }) => ({
    target: target.name,
    filter,
    train,
    lacksHours: hours,
    why: 'no-place',
  }));
}

function targetToPlan(
  progressed: Progress['targets'][number],
  outlook: Outlook | null,
  book: GoalsBook,
  from: string,
): { readonly target: PlanTarget; readonly place: Place }[] {
  const { name, otherNames, place } = progressed;
  const open = openLinesOf(progressed);
  if (place === null || open.length === 0) return [];
  const season = outlook?.targets.find((target) => target.name === name)?.season;
  const until = season?.state === 'now' ? season.until : null;
  const names = [name, ...otherNames].map(keyOf);
  const inBook = book.targets.find((target) => names.includes(keyOf(target.name)));
  const daysLeft = until === null ? null : Math.max(0, (Date.parse(until) - Date.parse(from)) / DAY_MS);
  return [{ target: { name, priority: inBook?.priority ?? 1, daysLeft, lines: open }, place }];
}

function keyOf(name: string): string {
  return name.trim().toLowerCase().replace(/\s+/g, '');
}
