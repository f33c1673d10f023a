/**
 * What each train does in an interval: what the plan chose for it, else something useful in parallel (extra depth
 * through a filter of the target, which may exceed the goal), else nothing, and why.
 */
import { durationMs, hull, itemAt, sum, type RestReason } from '../model/index.js';
import { cadenceOf, type Cadence } from './cadence.js';
import { filtersFor, subFor, trainValue, type OpenLine } from './lines.js';
import type { Choice } from './problem.js';
import type { PlanQuestion, PlanTrain, Slot } from './question.js';

/** Minimum to change a filter for: half an hour is not worthwhile. */
export const LEAST_RUN_MS = 3_600_000;
/** Maximum slowdown of required exposures by extra depth: subs that do not meet make the others wait. */
const MOST_SLOWING = 0.03;

export type Role =
  | { readonly does: 'exposes'; readonly filter: string; readonly line: OpenLine | null }
  | { readonly does: 'rests'; readonly why: RestReason };

export interface Roles {
  /** In the order of the trains. */
  readonly roles: readonly Role[];
  readonly cadence: Cadence;
}

/**
 * Gives each train its role.
 *
 * @param beside the filter that each train has on this target in the previous interval, else in the next, or `null`
 */
export function rolesIn(
  { picks, target }: Choice,
  slots: readonly Slot[],
  lines: readonly OpenLine[],
  question: PlanQuestion,
  beside: readonly (string | null)[],
): Roles {
  const { trains, ditherMs } = question;
  const roles = picks.map((pick): Role => {
    const line = pick ? lines[pick.line] : undefined;
    return pick && line ? { does: 'exposes', filter: pick.filter, line } : { does: 'rests', why: 'no-goal' };
  });
  const needed = cadenceIn(roles, trains, ditherMs);
  const own = lines.filter((line) => line.target === target);
  let cadence = needed;
  trains.forEach((train, index) => {
    if (picks.at(index)) return;
    const filter = extraFilter(train, own, slots, target, question, beside.at(index) ?? null);
    if (typeof filter !== 'string') {
      roles[index] = { does: 'rests', why: filter.why };
      return;
    }
    const line = own.find((one) => one.left > 0 && filtersFor(train, one, trains).includes(filter)) ?? null;
    const tried = roles.map((role, i): Role => (i === index ? { does: 'exposes', filter, line } : role));
    const slowed = cadenceIn(tried, trains, ditherMs);
    if (isSlowing(roles, needed, tried, slowed)) roles[index] = { does: 'rests', why: 'out-of-step' };
    else {
      roles.splice(0, roles.length, ...tried);
      cadence = slowed;
    }
  });
  return { roles, cadence };
}

function cadenceIn(roles: readonly Role[], trains: readonly PlanTrain[], ditherMs: number): Cadence {
  const exposing = trains.flatMap((train, i) => {
    const role = itemAt(roles, i);
    return role.does === 'exposes'
      ? [{ train: train.id, subMs: subFor(train, role.filter) * 1000, betweenSubsMs: train.betweenSubsMs }]
      : [];
  });
  return cadenceOf(exposing, ditherMs);
}

/** Whether required exposures would lose much open-shutter time, all trains that take them together. */
function isSlowing(before: readonly Role[], needed: Cadence, after: readonly Role[], slowed: Cadence): boolean {
  const shares = (roles: readonly Role[], { openShares }: Cadence): number => {
    const exposing = roles.flatMap((role) => (role.does === 'exposes' ? [role] : []));
    return sum(openShares.filter((_, i) => exposing[i]?.line !== null));
  };
  return shares(after, slowed) < (1 - MOST_SLOWING) * shares(before, needed);
}

/** The filter for extra depth: the one before or after, else the most useful one where the stretch is long enough. */
function extraFilter(
  train: PlanTrain,
  lines: readonly OpenLine[],
  slots: readonly Slot[],
  target: number,
  { trains, narrowband }: PlanQuestion,
  beside: string | null,
): string | { readonly why: RestReason } {
  const wanted = [...new Set(lines.flatMap((line) => filtersFor(train, line, trains)))];
  if (wanted.length === 0) return { why: 'no-goal' };
  const worthOf = (filter: string): number =>
    Math.min(...slots.map((slot) => slot.targets.at(target)?.worth(filter) ?? -Infinity));
  const useful = wanted.filter((filter) => worthOf(filter) > 0);
  if (useful.length === 0) return { why: 'sky' };
  if (beside !== null && useful.includes(beside)) return beside;
  const span = hull(slots.map((slot) => slot.span));
  if (span === null || durationMs(span) < LEAST_RUN_MS) return { why: 'short' };
  const value = (filter: string): number => {
    const lacks = lines.some((line) => line.left > 0 && filtersFor(train, line, trains).includes(filter));
    return (lacks ? 2 : 1) * worthOf(filter) * trainValue(train, trains, filter, narrowband);
  };
  return useful.reduce((best, filter) => (value(filter) > value(best) ? filter : best));
}
