/**
 * From progress and outlook to the plan: trains as their nights show them, the sky of the coming nights, and what is
 * lacking.
 */
import { DEFAULT_DARK_SKY_MAG_ARCSEC2 } from './config/index.js';
import { eveningToCome, homeOf, USUAL_LIMIT_DEG } from './look-ahead.js';
import {
  increment,
  elevationOf,
  durationMs,
  hull,
  interval,
  isNarrowband,
  narrowMoonDistanceDeg,
  median,
  midpointMs,
  sum,
  TWILIGHTS,
  type GoalsBook,
  type Interval,
  type NightSummary,
  type Outlook,
  type Plan,
  type Progress,
  type SkyPosition,
} from './model/index.js';
import { SKY_MODEL } from './pipeline.js';
import {
  assumptionsOf,
  planNights,
  type NightToPlan,
  type PlanTarget,
  type PlanTrain,
  type Slot,
  type TargetInSlot,
} from './plan/index.js';
import { darkStretches, makeSkyObserver, nightSpan, nightZone, type Place, type SkyObserver } from './sky/index.js';
import { clearTransparency, relativeSky, V_WAVELENGTH_NM } from './worth/sky-model.js';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const SLOT_MS = HOUR_MS / 2;
/** The rest of a night shorter than this is left. */
const LEAST_SLOT_MS = 10 * 60_000;
/**
 * Brightening by the Moon up to which broadband is taken, magnitudes per square arcsecond. Common practice, no source.
 */
const BROADBAND_MOON_MAG = 0.2;
/** Where no dither was recorded, and between subs where nothing is known. Common practice, no source. */
const USUAL_DITHER_MS = 25_000;
const BETWEEN_SUBS_MS = 5_000;

export interface PlanOptions {
  /** First evening, `YYYY-MM-DD`; without it the evening to come. */
  readonly from?: string;
  readonly nights: number;
  readonly nowMs: number;
  /** Apertures by train, mm, where a rig file names them. */
  readonly aperturesMm?: ReadonlyMap<string, number>;
}

/** The plan from the site with most nights; `null` when no site is known. */
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
  const trains = trainsOf(here, progress, book, options.aperturesMm ?? new Map());
  const dithers = here.flatMap((night) => night.ditherMs ?? []);
  const ditherMs = dithers.length > 0 ? median(dithers) : USUAL_DITHER_MS;
  const nights = Array.from({ length: options.nights }, (_, day) => {
    const date = new Date(Date.parse(`${from}T00:00:00Z`) + day * DAY_MS).toISOString().slice(0, 10);
    const dark = hull(darkStretches(observer, nightSpan(date, zone), site.darkness));
    return nightToPlan(date, dark, places, observer, elevationOf(site), book);
  });
  return {
    from,
    site: site.name,
    zone,
    trains: trains.map(({ id }) => id),
    nights: planNights({
      nights,
      trains,
      targets: wanted.map(({ target }) => target),
      narrowband: book.narrowband,
      ditherMs,
    }),
    assumptions: assumptionsOf({
      sunBelowDeg: TWILIGHTS[site.darkness].sunAltitudeDeg,
      limitDeg: site.horizon.length > 0 ? null : limitDeg,
      broadbandMoonMag: BROADBAND_MOON_MAG,
      ditherSeconds: dithers.length > 0 ? ditherMs / 1000 : null,
      trains,
    }),
  };
}

function targetToPlan(
  { name, otherNames, place, lines }: Progress['targets'][number],
  outlook: Outlook | null,
  book: GoalsBook,
  from: string,
): { readonly target: PlanTarget; readonly place: Place }[] {
  const open = lines.flatMap(({ filter, train, goalMs, remainingMs }) =>
    goalMs === null || remainingMs === null || remainingMs <= 0
      ? []
      : [{ filter, train, hours: remainingMs / HOUR_MS, share: remainingMs / goalMs }],
  );
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

/** Trains by what they did at home: scale of the last night, lengths most often used, share kept. */
function trainsOf(
  here: readonly NightSummary[],
  { trains }: Progress,
  book: GoalsBook,
  apertures: ReadonlyMap<string, number>,
): PlanTrain[] {
  return trains.flatMap((id): PlanTrain[] => {
    const own = here.findLast((night) => night.trains.some((train) => train.id === id));
    if (!own) return [];
    const nights = here.flatMap((night) => night.trains.filter((train) => train.id === id));
    const pauses = nights.flatMap((train) => train.betweenSubsMs ?? []);
    const totals = here.flatMap((night) => night.totals.filter((total) => total.train === id));
    const taken = sum(totals.map(({ ms }) => ms.taken));
    const frames = new Map<string, Map<number, number>>();
    for (const { train, filter, seconds, frames: count } of here.flatMap((night) => night.subs ?? [])) {
      if (train !== id || filter === '' || seconds <= 0) continue;
      const name = book.filterAliases.get(filter.trim().toLowerCase()) ?? filter.trim();
      const lengths = frames.get(name) ?? new Map<number, number>();
      increment(lengths, seconds, count);
      frames.set(name, lengths);
    }
    return [
      {
        id,
        apertureMm: apertures.get(id) ?? nights.findLast((t) => t.apertureMm !== undefined)?.apertureMm ?? null,
        pixelScaleArcsec: own.trains.find((train) => train.id === id)?.pixelScaleArcsec ?? null,
        keptShare: taken > 0 ? sum(totals.map(({ ms }) => ms.kept)) / taken : 1,
        betweenSubsMs: pauses.length > 0 ? median(pauses) : BETWEEN_SUBS_MS,
        subSeconds: new Map([...frames].map(([filter, lengths]) => [filter, mostUsed(lengths)] as const)),
      },
    ];
  });
}

function mostUsed(lengths: ReadonlyMap<number, number>): number {
  return [...lengths].sort(([, a], [, b]) => b - a)[0]?.[0] ?? 0;
}

function nightToPlan(
  date: string,
  dark: Interval | null,
  places: readonly Place[],
  observer: SkyObserver,
  elevationM: number,
  book: GoalsBook,
): NightToPlan {
  const spans: Interval[] = [];
  for (let atMs = dark?.startMs ?? 0; dark !== null && dark.endMs - atMs >= LEAST_SLOT_MS; atMs += SLOT_MS)
    spans.push(interval(atMs, Math.min(atMs + SLOT_MS, dark.endMs)));
  const slots = spans.map((span): Slot => {
    const middle = midpointMs(span);
    return {
      span,
      moonAltitudeDeg: observer.at(middle).moon.altitudeDeg,
      targets: places.map((place) => targetInSlot(place, span, observer, elevationM, book)),
    };
  });
  const middle = dark === null ? Date.parse(`${date}T23:59:00Z`) : midpointMs(dark);
  return { date, moonIllumination: observer.at(middle).moonPhase.illumination, slots };
}

function targetInSlot(
  place: Place,
  span: Interval,
  observer: SkyObserver,
  elevationM: number,
  book: GoalsBook,
): TargetInSlot {
  const [begin, middle, end] = [span.startMs, midpointMs(span), span.endMs].map((atMs) =>
    observer.position(place, atMs),
  );
  if (!begin || !middle || !end) throw new RangeError('a slot has a begin, a middle and an end');
  const isUp = [begin, middle, end].every((at) => at.altitudeDeg > at.limitDeg);
  return {
    isUp,
    altitudeDeg: { begin: begin.altitudeDeg, end: end.altitudeDeg },
    moonSeparationDeg: middle.moonSeparationDeg,
    transitMs: isUp ? transit(begin, end, span) : null,
    worth: (filter) => worthOf(filter, middle, elevationM, book),
  };
}

/**
 * Upper transit: the target passes from east to west. The sine of its azimuth is a straight line over so short a time.
 */
function transit(begin: SkyPosition, end: SkyPosition, span: Interval): number | null {
  const [east, west] = [begin, end].map(({ azimuthDeg }) => Math.sin((azimuthDeg * Math.PI) / 180));
  if (east === undefined || west === undefined || !(east > 0 && west <= 0)) return null;
  return Math.round(span.startMs + (durationMs(span) * east) / (east - west));
}

/** An hour's worth beside one under a dark, clear zenith; 0 for broadband under the Moon, narrow bands near it. */
function worthOf(filter: string, at: SkyPosition, elevationM: number, { narrowband }: GoalsBook): number {
  const wavelengthNm = SKY_MODEL.wavelengthNm(filter) ?? V_WAVELENGTH_NM;
  const k = SKY_MODEL.extinction(wavelengthNm, elevationM) ?? SKY_MODEL.extinction(V_WAVELENGTH_NM, elevationM) ?? 0;
  const sky = relativeSky(SKY_MODEL, at, k, DEFAULT_DARK_SKY_MAG_ARCSEC2);
  if (!sky || at.airmass === null) return 0;
  const isNarrow = isNarrowband(filter, narrowband);
  const isNear = at.moonAltitudeDeg > 0 && at.moonSeparationDeg < narrowMoonDistanceDeg(filter, at.moonIllumination);
  if (isNarrow && isNear) return 0;
  const isDark = at.sunAltitudeDeg < TWILIGHTS.astronomical.sunAltitudeDeg;
  if (!isNarrow && (!isDark || sky.moonBrighteningMag > BROADBAND_MOON_MAG)) return 0;
  return Math.min(1, clearTransparency(k, at.airmass) ** 2 / (sky.dark + sky.moon + sky.twilight));
}
