/** The lines of all targets that still lack something, and their weights. */
import { isNarrowband } from '../model/index.js';
import {
  BROADBAND_VALUE,
  LACKING_VALUE,
  SEASON_DAYS,
  SEASON_VALUE,
  SUITED_VALUE,
  UNKNOWN_SUB_SECONDS,
} from './practice.js';
import type { PlanLine, PlanTarget, PlanTrain } from './question.js';

/** A line with its remainder. */
export interface OpenLine extends PlanLine {
  /** Index of its target. */
  readonly target: number;
  left: number;
}

/** Lines of all targets. */
export function openLines(targets: readonly PlanTarget[]): OpenLine[] {
  return targets.flatMap(({ lines }, target) => lines.map((line) => ({ ...line, target, left: line.hours })));
}

/** Value of a kept hour under a dark zenith sky, by target and line, before the train's factor. */
export function lineValue({ priority, daysLeft }: PlanTarget, { share, hours, left }: OpenLine): number {
  const season = daysLeft === null ? 1 : 1 + SEASON_VALUE * Math.max(0, 1 - daysLeft / SEASON_DAYS);
  // Of the present remainder: panels of a mosaic are evened out from night to night.
  const lacking = hours > 0 ? (share * left) / hours : share;
  return priority * season * (1 + LACKING_VALUE * lacking);
}

/**
 * Weight of a train's hour through a filter: by its fraction of the largest aperture's area, and by its pixel scale,
 * the finer one for broadband, which has the detail, the coarser for narrow bands, whose light is faint.
 */
export function trainValue(train: PlanTrain, all: readonly PlanTrain[], filter: string, narrow: ReadonlySet<string>) {
  const apertures = all.flatMap((one) => one.apertureMm ?? []);
  const area =
    train.apertureMm !== null && apertures.length === all.length ? (train.apertureMm / Math.max(...apertures)) ** 2 : 1;
  const isNarrow = isNarrowband(filter, narrow);
  return area * (isNarrow ? 1 : BROADBAND_VALUE) * (isSuited(train, all, isNarrow) ? 1 + SUITED_VALUE : 1);
}

function isSuited({ pixelScaleArcsec: own }: PlanTrain, all: readonly PlanTrain[], isNarrow: boolean): boolean {
  const scales = all.flatMap((one) => one.pixelScaleArcsec ?? []);
  const [finest, coarsest] = [Math.min(...scales), Math.max(...scales)];
  if (own === null || scales.length < 2 || finest === coarsest) return false;
  return own === (isNarrow ? coarsest : finest);
}

/** The filters through which a train can serve a line; if none are known, whichever the line requires. */
export function filtersFor(train: PlanTrain, line: PlanLine, all: readonly PlanTrain[]): string[] {
  if (line.train !== null && line.train !== train.id) return [];
  if (line.filter === null) return [...train.subSeconds.keys(), ...train.newFilters.keys()];
  if (hasFilter(train, line.filter) || line.train === train.id) return [line.filter];
  const wanted = line.filter;
  const isKnown = train.subSeconds.size + train.newFilters.size > 0;
  // A filter that no train has used yet may be on any of them.
  if (!train.mayHaveOthers || (isKnown && all.some((one) => hasFilter(one, wanted)))) return [];
  return [wanted];
}

function hasFilter(train: PlanTrain, filter: string): boolean {
  return lengthFor(train.subSeconds, filter) !== null || lengthFor(train.newFilters, filter) !== null;
}

function lengthFor(lengths: ReadonlyMap<string, number>, filter: string): number | null {
  const wanted = filter.trim().toLowerCase();
  for (const [name, seconds] of lengths) if (name.trim().toLowerCase() === wanted) return seconds;
  return null;
}

/** The sub length that a train usually has through a filter, seconds; `null` when it has not used it. */
export function usualSub({ subSeconds }: PlanTrain, filter: string): number | null {
  return lengthFor(subSeconds, filter);
}

/** Length for the plan, seconds: the usual one, one to begin with, the median of the train's others, a common one. */
export function subFor(train: PlanTrain, filter: string): number {
  const known = usualSub(train, filter) ?? lengthFor(train.newFilters, filter);
  if (known !== null) return known;
  const others = [...train.subSeconds.values()].sort((a, b) => a - b);
  return others[Math.floor(others.length / 2)] ?? UNKNOWN_SUB_SECONDS;
}
