import { sum } from './statistics.js';
import type { Target } from './target.js';

/** Hours wanted per filter, for all trains together or for one. */
export interface Goals {
  readonly hours: Readonly<Record<string, number>>;
  readonly perTrain: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** Total hours shared out by the ratio, where the goals are given so. */
  readonly ratio?: { readonly totalHours: number; readonly parts: Readonly<Record<string, number>> };
  /** Hours wanted of the target through whatever filters. */
  readonly totalHours?: number;
}

/** A target somebody means to finish, whether imaged yet or not. */
export interface TargetGoals extends Pick<Target, 'name' | 'aliases' | 'raDeg' | 'decDeg'> {
  readonly goals: Goals;
}

/** Whether anything is wanted at all. */
export function hasGoals(goals: Goals): boolean {
  return (
    Object.keys(goals.hours).length > 0 ||
    Object.keys(goals.perTrain).length > 0 ||
    goals.ratio !== undefined ||
    goals.totalHours !== undefined
  );
}

/** One of equal parts of the goals: what a panel of a mosaic has of the whole's. */
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

/** One of the amounts that goals come to. */
export interface GoalAmount {
  /** `null`: through whatever filter. */
  readonly filter: string | null;
  /** `null`: by all trains together. */
  readonly train: string | null;
  readonly hours: number;
}

/** What is wanted amount by amount; that of whatever filters stands last. */
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
