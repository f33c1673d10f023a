import { filterMeant, sum, type Night, type TargetGoals, type Total } from '../../model/index.js';

/** What one night gave one goal. Milliseconds of exposure. */
export interface GoalLine {
  readonly target: string;
  /** `null` for a goal over all filters. */
  readonly filter: string | null;
  /** `null` for a goal of all trains together. */
  readonly train: string | null;
  readonly keptMs: number;
  /** `null` where the rig file names no goal. */
  readonly goalMs: number | null;
}

const HOUR = 3_600_000;

const folded = (name: string): string => name.toLowerCase().replaceAll(/[\s_-]+/g, '');

function isSameFilter(a: string, b: string): boolean {
  const meant = filterMeant(a);
  return meant === null ? folded(a) === folded(b) : meant === filterMeant(b);
}

function isTarget({ name, aliases }: TargetGoals, target: string): boolean {
  return [name, ...aliases].some((one) => folded(one) === folded(target));
}

function keptOf(totals: readonly Total[], filter: string | null, train: string | null): number {
  return sum(
    totals
      .filter((total) => filter === null || isSameFilter(total.filter, filter))
      .filter((total) => train === null || total.train === train)
      .map(({ ms }) => ms.kept),
  );
}

function goalLines(wanted: TargetGoals, totals: readonly Total[]): GoalLine[] {
  const { name, goals } = wanted;
  const line = (filter: string | null, hours: number, train: string | null = null): GoalLine => ({
    target: name,
    filter,
    train,
    keptMs: keptOf(totals, filter, train),
    goalMs: hours * HOUR,
  });
  const { ratio } = goals;
  const parts = ratio === undefined ? 0 : sum(Object.values(ratio.parts));
  return [
    ...Object.entries(goals.hours).map(([filter, hours]) => line(filter, hours)),
    ...Object.entries(goals.perTrain).flatMap(([train, hours]) =>
      Object.entries(hours).map(([filter, one]) => line(filter, one, train)),
    ),
    ...(ratio === undefined || parts === 0
      ? []
      : Object.entries(ratio.parts).map(([filter, part]) => line(filter, (ratio.totalHours * part) / parts))),
    ...(goals.totalHours === undefined ? [] : [line(null, goals.totalHours)]),
  ];
}

/** What was kept of a target without goals, a line a filter. */
function plainLines(target: string, totals: readonly Total[]): GoalLine[] {
  const filters = [...new Set(totals.map(({ filter }) => filter))];
  return filters.map((filter) => ({
    target,
    filter,
    train: null,
    keptMs: sum(totals.filter((total) => total.filter === filter).map(({ ms }) => ms.kept)),
    goalMs: null,
  }));
}

/** What the night gave each target it imaged, against the goals of the rig file where there are some. */
export function goalLinesOf(night: Night): GoalLine[] {
  const targets = [...new Set(night.accounts.totals.map(({ target }) => target))];
  return targets.flatMap((target) => {
    const totals = night.accounts.totals.filter((total) => total.target === target);
    const wanted = night.gathered.goals.find((goals) => isTarget(goals, target));
    return wanted ? goalLines(wanted, totals) : plainLines(target, totals);
  });
}
