/** Targets that were completed: exposing them further wasted the darkness. */
import {
  amountsOf,
  filterMeant,
  partition,
  sum,
  targetKey,
  type GoalAmount,
  type Goals,
  type NightFacts,
  type Total,
} from '../model/index.js';

const HOUR_MS = 3_600_000;

/** Whether the night reached the goal for a target; false without a goal. */
export function isFinished(target: string | undefined, { gathered, accounts }: NightFacts): boolean {
  if (target === undefined) return false;
  const key = targetKey(target);
  const wanted = gathered.goals.find((one) => [one.name, ...one.aliases].some((name) => targetKey(name) === key));
  if (!wanted) return false;
  const own = accounts.totals.filter((total) => total.target !== null && targetKey(total.target) === key);
  const left = linesOf(wanted.goals).map(
    ({ filter, train, hours }) =>
      hours * HOUR_MS - sum(own.filter((total) => isOf(total, filter, train)).map(({ ms }) => ms.kept)),
  );
  return left.length > 0 && left.every((ms) => ms <= 0);
}

/** The amounts wanted; one for any filter counts if there are no others. */
function linesOf(goals: Goals): readonly GoalAmount[] {
  const amounts = amountsOf(goals).filter(({ hours }) => hours > 0);
  const [ofFilters, whole] = partition(amounts, ({ filter }) => filter !== null);
  return ofFilters.length > 0 ? ofFilters : whole;
}

function isOf(total: Total, filter: string | null, train: string | null): boolean {
  if (train !== null && total.train !== train) return false;
  if (filter === null) return true;
  return (filterMeant(filter) ?? targetKey(filter)) === (filterMeant(total.filter) ?? targetKey(total.filter));
}
