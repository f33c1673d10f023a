/** The trains of a plan, as their nights and a rig file show them. */
import type { Rig } from './config/index.js';
import {
  increment,
  itemAt,
  listed,
  median,
  sum,
  type GoalsBook,
  type NightSummary,
  type Progress,
} from './model/index.js';
import { UNKNOWN_SUB_SECONDS, type PlanTrain } from './plan/index.js';

/** Default time between subs. Common practice, no source. */
const BETWEEN_SUBS_MS = 5_000;
/** Maximum number of trains planned: their joint choices grow with every one of them. */
const MOST_TRAINS = 6;
/** Arcseconds, of a pixel of one micrometre behind a millimetre of focal length. */
const ARCSEC_MM_PER_UM = (180 * 3600) / Math.PI / 1000;

export interface TrainsToPlan {
  readonly trains: readonly PlanTrain[];
  /** Which they are, and which are not among them, in a sentence. */
  readonly sentence: string;
}

export interface TrainChoice {
  /** Trains to plan instead of those of the latest night. */
  readonly wanted?: readonly string[];
  /** The rig whose trains are planned instead: those that it has and the nights have not are new. */
  readonly rig?: Rig;
  readonly aperturesMm?: ReadonlyMap<string, number>;
}

/**
 * The trains of the latest night with lights: what worked under another name, or no longer does, is not on the mount.
 *
 * @param here nights of the site, oldest first
 * @throws Error when a train that is wanted has no night at the site, or too many are
 */
export function trainsToPlan(
  here: readonly NightSummary[],
  progress: Progress,
  book: GoalsBook,
  choice: TrainChoice,
): TrainsToPlan {
  const { wanted, rig } = choice;
  const known = progress.trains.filter((id) => here.some((night) => night.trains.some((train) => train.id === id)));
  const asked = rig?.trains.map(({ id }) => id) ?? wanted;
  const unknown = (wanted ?? []).filter((id) => !known.includes(id));
  if (unknown.length > 0)
    throw new Error(`no night of the archive’s site has a train ${listed(unknown)}; it has ${listed(known)}`);
  if (asked && asked.length > MOST_TRAINS)
    throw new Error(`a plan is for one mount with at most ${MOST_TRAINS} trains, and ${asked.length} are asked for`);
  const latest = here.findLast((night) => night.totals.length > 0) ?? here.at(-1);
  const all = rig
    ? rig.trains.map(({ id }) => id)
    : known.filter((id) => wanted?.includes(id) ?? latest?.trains.some((train) => train.id === id));
  const ids = all.slice(0, MOST_TRAINS);
  const others = known.filter((id) => !ids.includes(id));
  const fresh = ids.filter((id) => !known.includes(id));
  const whose = rig ? 'of the rig file' : wanted ? 'asked for' : 'of the latest night';
  return {
    trains: trainsOf(ids, here, progress.nights, book, choice),
    sentence:
      `Planned ${ids.length === 1 ? 'is the train' : 'are the trains'} ${whose}: ${listed(ids)}.` +
      (fresh.length === 0
        ? ''
        : ` ${listed(fresh)} ${fresh.length === 1 ? 'is' : 'are'} new: lengths and losses are taken from the others.`) +
      (others.length === 0
        ? ''
        : ` Not ${listed(others)}, which took part in ${all.length > MOST_TRAINS ? 'it or in ' : ''}earlier nights` +
          (rig ? ' and are not in the rig file.' : ': name trains with --trains, or --rig, to plan others.')) +
      (all.length > MOST_TRAINS ? ` No more than ${MOST_TRAINS} trains are planned.` : ''),
  };
}

/**
 * Trains by their results at home: scale of the last night, most common lengths, fraction kept. Filters travel with a
 * train: those that it used elsewhere are its own as well.
 */
function trainsOf(
  ids: readonly string[],
  here: readonly NightSummary[],
  nights: readonly NightSummary[],
  book: GoalsBook,
  choice: TrainChoice,
): PlanTrain[] {
  const used = new Map(
    ids.map((id) => {
      const away = lengthsOf(id, awayWith(id, here, nights), book, choice.rig);
      return [id, new Map([...away, ...lengthsOf(id, here, book, choice.rig)])] as const;
    }),
  );
  return ids.map((id): PlanTrain => {
    const nights = here.flatMap((night) => night.trains.filter((train) => train.id === id));
    const own = choice.rig?.trains.find((train) => train.id === id);
    // A new train is taken to do as the others did.
    const like = (train: string): boolean => nights.length === 0 || train === id;
    const pauses = here.flatMap((night) => night.trains.flatMap((t) => (like(t.id) ? (t.betweenSubsMs ?? []) : [])));
    const totals = here.flatMap((night) => night.totals.filter(({ train }) => like(train)));
    const taken = sum(totals.map(({ ms }) => ms.taken));
    const subSeconds = used.get(id) ?? new Map<string, number>();
    const named = (own?.filterNames ?? []).map((filter) => nameOf(filter, book, choice.rig));
    return {
      id,
      apertureMm:
        choice.aperturesMm?.get(id) ??
        own?.apertureMm ??
        nights.findLast((train) => train.apertureMm !== undefined)?.apertureMm ??
        null,
      pixelScaleArcsec: nights.at(-1)?.pixelScaleArcsec ?? (own ? scaleOf(own) : null),
      keptShare: taken > 0 ? sum(totals.map(({ ms }) => ms.kept)) / taken : 1,
      betweenSubsMs: pauses.length > 0 ? median(pauses) : BETWEEN_SUBS_MS,
      subSeconds,
      newFilters: new Map(
        named
          .filter((filter) => !subSeconds.has(filter))
          .map((filter) => [filter, firstLength(filter, subSeconds, [...used.values()])] as const),
      ),
      mayHaveOthers: nights.length > 0 || named.length === 0,
    };
  });
}

/** Pixel scales of one telescope and camera differ by less, a share. Common practice, no source. */
const SAME_SCALE = 0.02;

/** Nights elsewhere of a train that has the scale of the one here: another of its name may be another telescope. */
function awayWith(id: string, here: readonly NightSummary[], nights: readonly NightSummary[]): NightSummary[] {
  const scaleIn = (night: NightSummary) => night.trains.find((train) => train.id === id)?.pixelScaleArcsec;
  const own = here.flatMap((night) => scaleIn(night) ?? []).at(-1);
  if (own === undefined) return [];
  return nights.filter((night) => {
    const scale = here.includes(night) ? undefined : scaleIn(night);
    return scale !== undefined && Math.abs(scale / own - 1) < SAME_SCALE;
  });
}

function scaleOf({ pixelSizeUm, focalLengthMm }: Rig['trains'][number]): number | null {
  return pixelSizeUm === undefined || focalLengthMm === undefined
    ? null
    : (ARCSEC_MM_PER_UM * pixelSizeUm) / focalLengthMm;
}

/**
 * The length that another train uses through the filter keeps them in step; else one of its own lengths, else a common
 * one.
 */
function firstLength(
  filter: string,
  own: ReadonlyMap<string, number>,
  all: readonly ReadonlyMap<string, number>[],
): number {
  const ofOthers = all.flatMap((lengths) => lengths.get(filter) ?? []);
  if (ofOthers.length > 0) return median(ofOthers);
  const others = own.size > 0 ? [...own.values()] : all.flatMap((lengths) => [...lengths.values()]);
  if (others.length === 0) return UNKNOWN_SUB_SECONDS;
  others.sort((a, b) => a - b);
  return itemAt(others, Math.floor(others.length / 2));
}

function lengthsOf(id: string, here: readonly NightSummary[], book: GoalsBook, rig: Rig | undefined) {
  const frames = new Map<string, Map<number, number>>();
  for (const { train, filter, seconds, frames: count } of here.flatMap((night) => night.subs ?? [])) {
    if (train !== id || filter === '' || seconds <= 0) continue;
    const name = nameOf(filter, book, rig);
    const lengths = frames.get(name) ?? new Map<number, number>();
    increment(lengths, seconds, count);
    frames.set(name, lengths);
  }
  return new Map([...frames].map(([filter, lengths]) => [filter, mostUsed(lengths)] as const));
}

/** The name under which a filter is counted. */
function nameOf(filter: string, book: GoalsBook, rig: Rig | undefined): string {
  const own = filter.trim();
  const shown = rig && Object.hasOwn(rig.filterAliases, own) ? (rig.filterAliases[own] ?? own) : own;
  return book.filterAliases.get(shown.toLowerCase()) ?? shown;
}

function mostUsed(lengths: ReadonlyMap<number, number>): number {
  return [...lengths].sort(([, a], [, b]) => b - a)[0]?.[0] ?? 0;
}
