/** From the optimal path through a night to instructions: intervals without a change, whole subs, times to focus. */
import {
  durationMs,
  hull,
  type DithersInStep,
  type Interval,
  type PlannedBlock,
  type TrainInBlock,
  itemAt,
} from '../model/index.js';
import type { Cadence } from './cadence.js';
import { subFor, usualSub, type OpenLine } from './lines.js';
import { FILTER_CHANGE_MS, FLIP_MS, REFOCUS_EVERY_MS, REFOCUS_MS, TARGET_CHANGE_MS } from './practice.js';
import type { Choice } from './problem.js';
import type { PlanQuestion, PlanTrain, Slot } from './question.js';
import { rolesIn, type Roles } from './roles.js';
import { subsOf, type Fitting } from './subs.js';

/** One choice kept over consecutive slots. */
export interface Stretch {
  readonly choice: Choice;
  readonly slots: readonly Slot[];
}

/**
 * Elaborates an interval and subtracts its contribution from the lines; `null` if not a single sub fits.
 *
 * @param before the block before it
 * @param after the interval after it
 */
export function blockOf(
  { choice, slots }: Stretch,
  lines: readonly OpenLine[],
  question: PlanQuestion,
  before: PlannedBlock | undefined,
  after: Stretch | undefined,
): PlannedBlock | null {
  const span = hull(slots.map((slot) => slot.span));
  const target = question.targets.at(choice.target);
  if (span === null || !target) return null;
  const stays = before?.target === target.name && before.span.endMs === span.startMs;
  const on = question.trains.map((train) => (stays ? filterOf(before, train.id) : null));
  const goesOn = after?.choice.target === choice.target && after.slots[0]?.span.startMs === span.endMs;
  const beside = on.map((filter, index) => filter ?? (goesOn ? (after.choice.picks.at(index)?.filter ?? null) : null));
  const { roles, cadence } = rolesIn(choice, slots, lines, question, beside);
  const skies = slots.flatMap((slot) => slot.targets.at(choice.target) ?? []);
  const transitMs = skies.find((sky) => sky.transitMs !== null)?.transitMs ?? null;
  const isNew = (index: number): boolean => filterIn(roles, index) !== null && filterIn(roles, index) !== on[index];
  // If one train has to focus, all do: none waits for another's, and none skips it for two intervals.
  const isAnyNew = !stays || roles.some((_, index) => isNew(index));
  const refocusMs = focusMoments(span, isAnyNew);
  const later = refocusMs.filter((atMs) => atMs > span.startMs).length;
  let exposing = 0;
  const fittings = question.trains.map((train, index): Fitting | null => {
    const filter = filterIn(roles, index);
    const role = itemAt(roles, index);
    if (filter === null || role.does === 'rests') return null;
    const perCycle = itemAt(cadence.subs, exposing++);
    const setUpMs = !stays ? TARGET_CHANGE_MS : isNew(index) ? FILTER_CHANGE_MS : isAnyNew ? REFOCUS_MS : 0;
    const openMs = durationMs(span) - setUpMs - later * REFOCUS_MS - (transitMs === null ? 0 : FLIP_MS);
    const subSeconds = subFor(train, filter);
    return {
      line: role.line,
      perCycle,
      keptHours: (subSeconds * train.keptShare) / 3600,
      most: subsIn(openMs, cadence, perCycle, subSeconds * 1000 + train.betweenSubsMs),
    };
  });
  const taken = subsOf(fittings);
  const trains = question.trains.map((train, index): TrainInBlock => {
    const role = itemAt(roles, index);
    const own = itemAt(taken, index);
    if (role.does === 'rests') return { state: 'rests', train: train.id, why: role.why };
    if (own === null || own.subs === 0) return { state: 'rests', train: train.id, why: 'short' };
    return { ...exposureOf(train, role.filter), ...own, refocusMs };
  });
  if (trains.every(({ state }) => state === 'rests')) return null;
  const altitudes = skies.flatMap(({ altitudeDeg: { begin, end } }) => [begin, end]);
  return {
    span,
    target: target.name,
    isNewTarget: !stays,
    altitudeDeg: {
      begin: itemAt(altitudes, 0),
      end: itemAt(altitudes, altitudes.length - 1),
      least: Math.min(...altitudes),
    },
    moonSeparationDeg: leastMoon(slots, choice.target),
    transitMs,
    dither: ditherOf(trains, roles, cadence),
    trains,
  };
}

function exposureOf(train: PlanTrain, filter: string) {
  return {
    state: 'exposes',
    train: train.id,
    filter,
    subSeconds: subFor(train, filter),
    isUsualLength: usualSub(train, filter) !== null,
  } as const;
}

function filterIn(roles: Roles['roles'], index: number): string | null {
  const role = itemAt(roles, index);
  return role.does === 'exposes' ? role.filter : null;
}

function filterOf({ trains }: PlannedBlock, train: string): string | null {
  const own = trains.find((one) => one.train === train);
  return own?.state === 'exposes' ? own.filter : null;
}

/** Whole cycles, and of the last one what still fits. */
function subsIn(openMs: number, { cycleMs }: Cadence, perCycle: number, periodMs: number): number {
  if (openMs <= 0) return 0;
  const cycles = Math.floor(openMs / cycleMs);
  return cycles * perCycle + Math.min(perCycle, Math.floor((openMs - cycles * cycleMs) / periodMs));
}

/** At the same times on all trains, so that none waits for another’s. */
function focusMoments(span: Interval, isNew: boolean): number[] {
  const moments = isNew ? [span.startMs] : [];
  const lastMs = span.endMs - REFOCUS_EVERY_MS / 3;
  for (let atMs = span.startMs + REFOCUS_EVERY_MS; atMs < lastMs; atMs += REFOCUS_EVERY_MS) moments.push(atMs);
  return moments;
}

function leastMoon(slots: readonly Slot[], target: number): number | null {
  const apart = slots.flatMap((slot) =>
    slot.moonAltitudeDeg > 0 ? (slot.targets.at(target)?.moonSeparationDeg ?? []) : [],
  );
  return apart.length === 0 ? null : Math.min(...apart);
}

function ditherOf(
  trains: readonly TrainInBlock[],
  roles: Roles['roles'],
  { subs, waitMs, cycleMs }: Cadence,
): DithersInStep {
  const exposing = trains.filter((_, index) => itemAt(roles, index).does === 'exposes');
  return {
    subs: Object.fromEntries(exposing.map(({ train }, i) => [train, itemAt(subs, i)])),
    everyMs: cycleMs,
    waitMs: Object.fromEntries(exposing.map(({ train }, i) => [train, itemAt(waitMs, i)])),
  };
}
