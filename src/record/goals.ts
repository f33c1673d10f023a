/** Goals of a rig file in an archive's record. */
import type { TargetGoals } from '../model/index.js';
import type { SessionRecord } from './schema.js';

type GoalsRecord = NonNullable<SessionRecord['archive']>['goals'][number];

/** Writes a target's goals. */
export function toGoalsRecord({ name, aliases, raDeg, decDeg, goals }: TargetGoals): GoalsRecord {
  const { hours, perTrain, ratio, totalHours } = goals;
  return {
    name,
    aliases: [...aliases],
    ra: raDeg,
    dec: decDeg,
    hours: { ...hours },
    perTrain:
      Object.keys(perTrain).length > 0
        ? Object.fromEntries(Object.entries(perTrain).map(([train, own]) => [train, { ...own }]))
        : undefined,
    ratio: ratio && { totalHours: ratio.totalHours, parts: { ...ratio.parts } },
    totalHours,
  };
}

/** Reads the goals of a record; none if it is not an archive's. */
export function goalsOf({ archive }: Pick<SessionRecord, 'archive'>): TargetGoals[] {
  return (archive?.goals ?? []).map(({ name, aliases, ra, dec, hours, perTrain, ratio, totalHours }) => ({
    name,
    aliases,
    raDeg: ra,
    decDeg: dec,
    goals: { hours, perTrain: perTrain ?? {}, ratio, totalHours },
  }));
}
