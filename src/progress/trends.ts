/**
 * Figures of merit, night by night and month by month.
 */
import {
  durationMs,
  groupBy,
  overlapMs,
  sum,
  sumOfKnown,
  type MonthSummary,
  type NightSummary,
  type NightTrend,
  type PairTrend,
} from '../model/index.js';

/** One night's figures. */
export function nightTrend(night: NightSummary, pairs: readonly PairTrend[] = []): NightTrend {
  const keptByTrain = night.trains.map(({ id }) => keptMs(night, id));
  const kept = sum(keptByTrain);
  const best = Math.max(0, ...keptByTrain);
  const usedMs = night.used ? durationMs(night.used) : 0;
  const trains = night.trains.length;
  return {
    date: night.date,
    atMs: night.window.startMs,
    darkMs: night.isDarkness ? durationMs(night.window) : null,
    usedMs: night.used && night.isDarkness ? overlapMs(night.used, night.window) : usedMs,
    keptPerTrainMs: trains > 0 ? sumOfKnown(night.trains.map((t) => t.accountsMs.kept)) / trains : 0,
    keptMs: kept,
    efficiency: usedMs > 0 && trains > 0 ? kept / (usedMs * trains) : null,
    twinGain: trains > 1 && best > 0 ? kept / best : null,
    trains: night.trains.map(({ id, guidingRmsArcsec, starSize, starFwhmArcsec, ditherWaitMs }) => ({
      train: id,
      guidingRmsArcsec,
      starSize,
      ...(starFwhmArcsec === undefined ? {} : { starFwhmArcsec }),
      ditherWaitMs,
    })),
    pairs,
  };
}

/** The months that hold nights, oldest first. */
export function monthSummaries(trends: readonly NightTrend[]): MonthSummary[] {
  return [...groupBy(trends, (t) => t.date.slice(0, 7))].map(([month, own]) => ({
    month,
    nights: own.filter((t) => t.keptMs > 0).length,
    darkMs: sumOfKnown(own.map((t) => t.darkMs)),
    usedMs: sum(own.map((t) => t.usedMs)),
    keptMs: sum(own.map((t) => t.keptMs)),
  }));
}

/** Kept integration of one train over all targets. */
function keptMs({ totals }: NightSummary, train: string): number {
  return sum(totals.filter((t) => t.train === train).map((t) => t.ms.kept));
}
