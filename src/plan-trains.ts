/** The trains of a plan, as their nights show them. */
import { increment, listed, median, sum, type GoalsBook, type NightSummary, type Progress } from './model/index.js';
import type { PlanTrain } from './plan/index.js';

/** Between subs where nothing is known. Common practice, no source. */
const BETWEEN_SUBS_MS = 5_000;

export interface TrainsToPlan {
  readonly trains: readonly PlanTrain[];
  /** Which they are, and which are not among them, in a sentence. */
  readonly sentence: string;
}

/**
 * The trains of the latest night with lights: what worked under another name, or no longer does, is not on the mount.
 *
 * @param here nights of the site, oldest first
 * @param wanted trains to plan instead
 * @throws Error when a train that is wanted has no night at the site
 */
export function trainsToPlan(
  here: readonly NightSummary[],
  progress: Progress,
  book: GoalsBook,
  { wanted, aperturesMm = new Map() }: { wanted?: readonly string[]; aperturesMm?: ReadonlyMap<string, number> },
): TrainsToPlan {
  const known = progress.trains.filter((id) => here.some((night) => night.trains.some((train) => train.id === id)));
  const unknown = (wanted ?? []).filter((id) => !known.includes(id));
  if (unknown.length > 0)
    throw new Error(`no night of the archive’s site has a train ${listed(unknown)}; it has ${listed(known)}`);
  const latest = here.findLast((night) => night.totals.length > 0) ?? here.at(-1);
  const ids = known.filter((id) => wanted?.includes(id) ?? latest?.trains.some((train) => train.id === id));
  const others = known.filter((id) => !ids.includes(id));
  return {
    trains: trainsOf(ids, here, book, aperturesMm),
    sentence:
      `Planned ${ids.length === 1 ? 'is the train' : 'are the trains'} ` +
      `${wanted ? 'asked for' : 'of the latest night'}: ${listed(ids)}.` +
      (others.length === 0
        ? ''
        : ` Not ${listed(others)}, which took part in earlier nights: name trains with --trains to plan others.`),
  };
}

/** Trains by what they did at home: scale of the last night, lengths most often used, share kept. */
function trainsOf(
  ids: readonly string[],
  here: readonly NightSummary[],
  book: GoalsBook,
  apertures: ReadonlyMap<string, number>,
): PlanTrain[] {
  return ids.flatMap((id): PlanTrain[] => {
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
