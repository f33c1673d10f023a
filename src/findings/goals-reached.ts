/** Targets that a night has finished: more of them is not what its darkness was for. */
import { filterMeant, sum, targetKey, type Goals, type NightFacts, type Total } from '../model/index.js';

const HOUR_MS = 3_600_000;

/** Whether what the night kept of a target is all that is wanted of it; not where nothing is. */
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

interface Line {
  readonly filter?: string;
  readonly train?: string;
  readonly hours: number;
}

/** What is wanted, line by line; a goal over all filters stands where there are no others. */
function linesOf({ hours, perTrain, ratio, totalHours }: Goals): Line[] {
  const own = Object.entries(hours).map(([filter, h]): Line => ({ filter, hours: h }));
  const ofTrains = Object.entries(perTrain).flatMap(([train, filters]) =>
    Object.entries(filters).map(([filter, h]): Line => ({ filter, train, hours: h })),
  );
  const whole = ratio ? sum(Object.values(ratio.parts)) : 0;
  const shared = ratio
    ? Object.entries(ratio.parts).map(([filter, part]): Line => ({ filter, hours: (ratio.totalHours * part) / whole }))
    : [];
  const lines = [...own, ...ofTrains, ...shared].filter((line) => line.hours > 0);
  return lines.length === 0 && totalHours !== undefined && totalHours > 0 ? [{ hours: totalHours }] : lines;
}

function isOf(total: Total, filter: string | undefined, train: string | undefined): boolean {
  if (train !== undefined && total.train !== train) return false;
  if (filter === undefined) return true;
  return (filterMeant(filter) ?? targetKey(filter)) === (filterMeant(total.filter) ?? targetKey(total.filter));
}
