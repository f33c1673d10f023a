import {
  amountsOf,
  filterMeant,
  goalsInParts,
  sum,
  wholeOfPanel,
  type Night,
  type TargetGoals,
  type Total,
} from '../../model/index.js';

/** A target with its goals. */
export type Wanted = Pick<TargetGoals, 'name' | 'aliases' | 'goals'>;

/** What an archive knows about a night's targets: nights before it, and goals stored next to the records. */
export interface Earlier {
  readonly nights: readonly { readonly date: string; readonly totals: readonly Total[] }[];
  /** They take precedence over the night's own rig file, as in the progress of the archive. */
  readonly goals: readonly Wanted[];
}

const NO_EARLIER: Earlier = { nights: [], goals: [] };

/** The contribution of one night to one goal. Milliseconds of exposure. */
export interface GoalLine {
  readonly target: string;
  /** `null` for a goal over all filters. */
  readonly filter: string | null;
  /** `null` for a goal of all trains together. */
  readonly train: string | null;
  readonly keptMs: number;
  /** Kept on the nights before it that an archive holds. */
  readonly earlierMs: number;
  /** Whether the night has lights of it, kept or not. */
  readonly isTaken: boolean;
  /** `null` where the rig file names no goal. */
  readonly goalMs: number | null;
}

const HOUR = 3_600_000;

const folded = (name: string): string => name.toLowerCase().replaceAll(/[\s_-]+/g, '');

function isSameFilter(a: string, b: string): boolean {
  const meant = filterMeant(a);
  return meant === null ? folded(a) === folded(b) : meant === filterMeant(b);
}

function isTarget({ name, aliases }: Pick<Wanted, 'name' | 'aliases'>, target: string): boolean {
  return [name, ...aliases].some((one) => folded(one) === folded(target));
}

function totalsOf(totals: readonly Total[], filter: string | null, train: string | null): Total[] {
  return totals
    .filter((total) => filter === null || isSameFilter(total.filter, filter))
    .filter((total) => train === null || total.train === train);
}

const keptOf = (totals: readonly Total[]): number => sum(totals.map(({ ms }) => ms.kept));

/** One line per goal, and one per filter without a goal. */
function goalLines(wanted: Wanted, totals: readonly Total[], earlier: readonly Total[]): GoalLine[] {
  const lines = linesOfGoals(wanted, totals, earlier);
  const unasked = totals.filter(
    ({ filter, train }) =>
      !lines.some(
        (line) =>
          (line.filter === null || isSameFilter(line.filter, filter)) && (line.train === null || line.train === train),
      ),
  );
  return [...lines, ...plainLines(wanted.name, unasked, earlier)];
}

function linesOfGoals({ name, goals }: Wanted, totals: readonly Total[], earlier: readonly Total[]): GoalLine[] {
  return amountsOf(goals).map(({ filter, train, hours }) => ({
    target: name,
    filter,
    train,
    keptMs: keptOf(totalsOf(totals, filter, train)),
    earlierMs: keptOf(totalsOf(earlier, filter, train)),
    isTaken: totalsOf(totals, filter, train).length > 0,
    goalMs: hours * HOUR,
  }));
}

/** What was kept of a target without goals, one line per filter. */
function plainLines(target: string, totals: readonly Total[], earlier: readonly Total[]): GoalLine[] {
  const filters = [...new Set(totals.map(({ filter }) => filter))];
  return filters.map((filter) => ({
    target,
    filter,
    train: null,
    keptMs: keptOf(totals.filter((total) => total.filter === filter)),
    earlierMs: keptOf(totalsOf(earlier, filter, null)),
    isTaken: true,
    goalMs: null,
  }));
}

/** A panel's equal share of the goals of a mosaic of which only panels were imaged, as in the progress. */
function shareOfWhole(target: string, known: readonly Wanted[], imaged: readonly string[]): Wanted | undefined {
  const name = wholeOfPanel(target);
  const whole = name === null ? undefined : known.find((one) => isTarget(one, name));
  if (whole === undefined || imaged.some((one) => isTarget(whole, one))) return undefined;
  const panels = imaged.filter((one) => {
    const of = wholeOfPanel(one);
    return of !== null && isTarget(whole, of) && !known.some((own) => isTarget(own, one));
  });
  return { name: target, aliases: [], goals: goalsInParts(whole.goals, new Set(panels.map(folded)).size) };
}

/**
 * What the night contributed to each target it imaged, relative to the goals if there are any, and after the nights
 * before it.
 */
export function goalLinesOf(night: Night, { nights, goals }: Earlier = NO_EARLIER): GoalLine[] {
  const past = nights.filter(({ date }) => date < night.date).flatMap(({ totals }) => totals);
  const known = [...goals, ...night.gathered.goals];
  const targets = [...new Set(night.accounts.totals.map(({ target }) => target))];
  const imaged = past.map(({ target }) => target);
  return targets.flatMap((target) => {
    const totals = night.accounts.totals.filter((total) => total.target === target);
    const wanted = known.find((one) => isTarget(one, target)) ?? shareOfWhole(target, known, [...targets, ...imaged]);
    const names = wanted ?? { name: target, aliases: [] };
    const earlier = past.filter((total) => isTarget(names, total.target));
    return wanted ? goalLines(wanted, totals, earlier) : plainLines(target, totals, earlier);
  });
}
