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
