/**
 * Progress over many nights: totals against goals, and how the nights went. Pure: summaries in, figures out.
 */
import type { Goals, GoalsBook, NightSummary, Progress, TargetProgress } from '../model/index.js';
import { filterNames } from './filters.js';
import { targetNames, type NamedTarget, type TargetNames } from './names.js';
import { impossibleNights, nearDuplicates, severalSites, unknownSites, unlikeScales } from './notices.js';
import { sharedAmongPanels } from './panels.js';
import { targetProgress, type TargetShare } from './target-progress.js';
import { pairTrends } from './touched.js';
import { monthSummaries, nightTrend } from './trends.js';

export { NEAR_DUPLICATE_DEG } from './notices.js';
export { goalLines, type GoalLine } from './goals.js';

/**
 * Summarises an archive.
 *
 * @param nights oldest first
 * @param siteKey the same text for nights of one site, `null` if unknown
 */
export function progressOf(
  nights: readonly NightSummary[],
  book: GoalsBook,
  siteKey: (night: NightSummary) => string | null,
): Progress {
  const names = targetNames(nights, book.targets);
  const filterName = filterNames(nights, book);
  const shares = sharesByTarget(nights, names, filterName);
  const { goals, notices } = sharedAmongPanels(goalsByTarget(nights, book, names), names, (target) =>
    shares.has(target),
  );
  const targets = names.targets
    .filter((target) => shares.has(target) || goals.has(target))
    .map((target) => targetProgress(target, shares.get(target) ?? [], goals.get(target) ?? null, filterName))
    .sort(byUrgency);
  const pairs = pairTrends(nights);
  const trends = nights.map((night, i) => nightTrend(night, pairs[i]));
  return {
    nights,
    trains: trainsOf(nights),
    targets,
    months: monthSummaries(trends),
    trends,
    notices: [
      ...severalSites(nights, siteKey),
      ...unknownSites(nights),
      ...nearDuplicates(targets),
      ...unlikeScales(nights, targets),
      ...impossibleNights(nights),
      ...notices,
    ],
  };
}

function sharesByTarget(
  nights: readonly NightSummary[],
  names: TargetNames,
  filterName: (name: string) => string,
): Map<NamedTarget, TargetShare[]> {
  const shares = new Map<NamedTarget, TargetShare[]>();
  for (const night of nights) {
    const tonight = new Map<NamedTarget, NightSummary['totals'][number][]>();
    for (const total of night.totals) {
      const target = names.find(total.target);
      const own = tonight.get(target) ?? [];
      own.push({ ...total, filter: filterName(total.filter) });
      tonight.set(target, own);
    }
    for (const [target, totals] of tonight) {
      const own = shares.get(target);
      if (own) own.push({ night, totals });
      else shares.set(target, [{ night, totals }]);
    }
  }
  return shares;
}

/** The applicable goals: the book's, else those of the latest record that has any. */
function goalsByTarget(nights: readonly NightSummary[], book: GoalsBook, names: TargetNames): Map<NamedTarget, Goals> {
  const goals = new Map<NamedTarget, Goals>();
  for (const night of nights) for (const target of night.goals) goals.set(names.find(target.name), target.goals);
  for (const target of book.targets) if (target.goals) goals.set(names.find(target.name), target.goals);
  return goals;
}

function trainsOf(nights: readonly NightSummary[]): string[] {
  const roles = new Map<string, boolean>();
  for (const night of nights) for (const { id, role } of night.trains) roles.set(id, role === 'pilot');
  return [...roles].sort(([, a], [, b]) => Number(b) - Number(a)).map(([id]) => id);
}

/** Unfinished first, then by the last night. */
function byUrgency(a: TargetProgress, b: TargetProgress): number {
  const open = (t: TargetProgress): number =>
    t.remainingMs !== null && t.remainingMs > 0 ? 0 : t.goalMs === null ? 1 : 2;
  const last = (t: TargetProgress): string => t.nights.at(-1)?.date ?? '';
  return open(a) - open(b) || (last(a) < last(b) ? 1 : last(a) > last(b) ? -1 : 0) || (a.name < b.name ? -1 : 1);
}

export { shareOutlook, shareProgress } from './shared.js';
export { countingNotices } from './counting-notices.js';
