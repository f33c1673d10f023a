/** One target over all nights: its total, its remainder, and which nights contributed. */
import {
  groupBy,
  sum,
  sumOfKnown,
  type Goals,
  type NightSummary,
  type ProgressLine,
  type TargetNight,
  type TargetProgress,
  type Total,
  type VerdictTally,
} from '../model/index.js';
import type { FilterName } from './filters.js';
import { goalLines, sameFilter, type GoalLine } from './goals.js';
import type { NamedTarget } from './names.js';

/** A night's totals of one target, its filters under their common names. */
export interface TargetShare {
  readonly night: NightSummary;
  readonly totals: readonly Total[];
}

/** Summarises a target over its nights, oldest first. */
export function targetProgress(
  target: NamedTarget,
  shares: readonly TargetShare[],
  goals: Goals | null,
  filterName: FilterName,
): TargetProgress {
  const totals = shares.flatMap((s) => s.totals);
  const wanted = (goals ? goalLines(goals) : []).map((line) => ({
    ...line,
    filter: line.filter === null ? null : filterName(line.filter),
  }));
  const lines = [
    ...wanted.map((line) => progressLine(line, shares)),
    ...goalless(wanted, totals).map((line) => progressLine(line, shares)),
  ];
  const withGoal = lines.filter((line) => line.goalMs !== null);
  return {
    name: target.name,
    otherNames: target.otherNames,
    place: target.place,
    lines,
    ms: addTallies(totals.map((t) => t.ms)),
    frames: addTallies(totals.map((t) => t.frames)),
    goalMs: withGoal.length > 0 ? sumOfKnown(withGoal.map((l) => l.goalMs)) : null,
    remainingMs: withGoal.length > 0 ? sumOfKnown(withGoal.map((l) => l.remainingMs)) : null,
    nights: shares.map(toTargetNight),
  };
}

/** Whether a total counts towards a line. */
function counts({ filter, train }: Pick<GoalLine, 'filter' | 'train'>, total: Total): boolean {
  return (filter === null || sameFilter(filter, total.filter)) && (train === null || train === total.train);
}

/** Lines for what was imaged without a goal: per filter, for all trains that have no goal of their own in it. */
function goalless(wanted: readonly GoalLine[], totals: readonly Total[]): Pick<GoalLine, 'filter' | 'train'>[] {
  const rest = totals.filter((total) => !wanted.some((line) => line.filter !== null && counts(line, total)));
  return [...groupBy(rest, (total) => total.filter)].flatMap(([filter, own]): Pick<GoalLine, 'filter' | 'train'>[] => {
    const isShared = wanted.some((line) => sameFilter(line.filter, filter));
    return isShared
      ? [...new Set(own.map((t) => t.train))].map((train) => ({ filter, train }))
      : [{ filter, train: null }];
  });
}

function progressLine(
  line: Pick<GoalLine, 'filter' | 'train'> & { readonly goalMs?: number },
  shares: readonly TargetShare[],
): ProgressLine {
  const own = shares.map((share) => share.totals.filter((total) => counts(line, total)));
  const totals = own.flat();
  const ms = addTallies(totals.map((t) => t.ms));
  const { goalMs = null } = line;
  return {
    filter: line.filter,
    train: line.train,
    goalMs,
    ms,
    frames: addTallies(totals.map((t) => t.frames)),
    remainingMs: goalMs === null ? null : Math.max(0, goalMs - ms.kept),
    nights: own.filter((night) => night.some((t) => t.frames.kept > 0)).length,
    keptByTrainMs: keptBy(totals, (t) => t.train),
  };
}

function toTargetNight({ night, totals }: TargetShare): TargetNight {
  return {
    date: night.date,
    file: night.file,
    report: night.report,
    ms: addTallies(totals.map((t) => t.ms)),
    keptByFilterMs: keptBy(totals, (t) => t.filter),
    keptByTrainMs: keptBy(totals, (t) => t.train),
  };
}

function keptBy(totals: readonly Total[], key: (total: Total) => string): Record<string, number> {
  return Object.fromEntries([...groupBy(totals, key)].map(([name, own]) => [name, sum(own.map((t) => t.ms.kept))]));
}

function addTallies(tallies: readonly VerdictTally[]): VerdictTally {
  const add = (verdict: keyof VerdictTally): number => sum(tallies.map((t) => t[verdict]));
  return { taken: add('taken'), kept: add('kept'), doubtful: add('doubtful'), lost: add('lost') };
}
