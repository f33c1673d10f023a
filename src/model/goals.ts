import { sum } from './statistics.js';
import type { Target } from './target.js';

/** Hours wanted per filter, for all trains together or for one. */
export interface Goals {
  readonly hours: Readonly<Record<string, number>>;
  readonly perTrain: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** Total hours divided by the ratio, if the goals are given like this. */
  readonly ratio?: { readonly totalHours: number; readonly parts: Readonly<Record<string, number>> };
  /** Hours wanted of the target through any filter. */
  readonly totalHours?: number;
}

/** A target to be completed, whether imaged yet or not. */
export interface TargetGoals extends Pick<Target, 'name' | 'aliases' | 'raDeg' | 'decDeg'> {
  readonly goals: Goals;
}

/** Whether there is any goal. */
export function hasGoals(goals: Goals): boolean {
  return (
    Object.keys(goals.hours).length > 0 ||
    Object.keys(goals.perTrain).length > 0 ||
    goals.ratio !== undefined ||
    goals.totalHours !== undefined
  );
}

/** One of equal parts of the goals: a mosaic panel's share of the whole. */
export function goalsInParts({ hours, perTrain, ratio, totalHours }: Goals, parts: number): Goals {
  const share = (wanted: Readonly<Record<string, number>>): Record<string, number> =>
    Object.fromEntries(Object.entries(wanted).map(([filter, h]) => [filter, h / parts]));
  return {
    hours: share(hours),
    perTrain: Object.fromEntries(Object.entries(perTrain).map(([train, own]) => [train, share(own)])),
    ...(ratio ? { ratio: { ...ratio, totalHours: ratio.totalHours / parts } } : {}),
    ...(totalHours === undefined ? {} : { totalHours: totalHours / parts }),
  };
}

/** One of the amounts that make up the goals. */
export interface GoalAmount {
  /** `null`: through any filter. */
  readonly filter: string | null;
  /** `null`: by all trains together. */
  readonly train: string | null;
  readonly hours: number;
}

/** The goals amount by amount; that for any filter comes last. */
export function amountsOf({ hours, perTrain, ratio, totalHours }: Goals): GoalAmount[] {
  const parts = ratio === undefined ? 0 : sum(Object.values(ratio.parts));
  return [
    ...Object.entries(hours).map(([filter, h]) => ({ filter, train: null, hours: h })),
    ...Object.entries(perTrain).flatMap(([train, own]) =>
      Object.entries(own).map(([filter, h]) => ({ filter, train, hours: h })),
    ),
    ...(ratio === undefined || parts === 0
      ? []
      : Object.entries(ratio.parts).map(([filter, part]) => ({
          filter,
          train: null,
          hours: (ratio.totalHours * part) / parts,
        }))),
    ...(totalHours === undefined ? [] : [{ filter: null, train: null, hours: totalHours }]),
  ];
}
