/** From the way through a night to what is to be done: stretches without a change, whole subs, moments to focus. */
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
import type { PlanQuestion, Slot } from './question.js';

const HOUR_MS = 3_600_000;

/** One choice held over consecutive slots. */
export interface Stretch {
  readonly choice: Choice;
  readonly cadence: Cadence;
  readonly slots: readonly Slot[];
  /** The choice before it, unless there is a pause between. */
  readonly before: Choice | undefined;
}

/** Works a stretch out and takes what it adds from the lines; `null` where not one sub fits in. */
export function blockOf(stretch: Stretch, lines: readonly OpenLine[], question: PlanQuestion): PlannedBlock | null {
  const { choice, cadence, slots, before } = stretch;
  const span = hull(slots.map((slot) => slot.span));
  const target = question.targets.at(choice.target);
  if (span === null || !target) return null;
  const skies = slots.flatMap((slot) => slot.targets.at(choice.target) ?? []);
  const transitMs = skies.find((sky) => sky.transitMs !== null)?.transitMs ?? null;
  const isNewTarget = before?.target !== choice.target;
  const isNew = (index: number): boolean => isNewTarget || before?.picks[index]?.filter !== choice.picks[index]?.filter;
  // Where one train has to focus, all do: none waits for another's, and none goes without for two stretches.
  const isAnyNew = choice.picks.some((pick, index) => pick && lines[pick.line] && isNew(index));
  let exposing = 0;
  const trains = question.trains.map((train, index): TrainInBlock => {
    const pick = choice.picks[index];
    const line = pick && lines[pick.line];
    if (!pick || !line) return { state: 'rests', train: train.id };
    const perCycle = cadence.subs[exposing++] ?? 1;
    const setUpMs = isNewTarget ? TARGET_CHANGE_MS : isNew(index) ? FILTER_CHANGE_MS : isAnyNew ? REFOCUS_MS : 0;
    const refocusMs = focusMoments(span, isAnyNew);
    const later = refocusMs.filter((atMs) => atMs > span.startMs).length;
    const openMs = durationMs(span) - setUpMs - later * REFOCUS_MS - (transitMs === null ? 0 : FLIP_MS);
    const subSeconds = subFor(train, pick.filter);
    const fitting = subsIn(openMs, cadence, perCycle, subSeconds * 1000 + train.betweenSubsMs);
    const keptHours = (subSeconds * 1000 * train.keptShare) / HOUR_MS;
    const subs = Math.min(fitting, keptHours > 0 ? Math.ceil(line.left / keptHours - 1e-9) : 0);
    const addsHours = Math.min(line.left, subs * keptHours);
    line.left -= addsHours;
    if (subs === 0) return { state: 'rests', train: train.id };
    const isUsualLength = usualSub(train, pick.filter) !== null;
    return {
      state: 'exposes',
      train: train.id,
      filter: pick.filter,
      subSeconds,
      isUsualLength,
      subs,
      addsHours,
      refocusMs,
    };
  });
  if (trains.every(({ state }) => state === 'rests')) return null;
  const altitudes = skies.flatMap(({ altitudeDeg: { begin, end } }) => [begin, end]);
  return {
    span,
    target: target.name,
    isNewTarget,
    altitudeDeg: {
      begin: itemAt(altitudes, 0),
      end: itemAt(altitudes, altitudes.length - 1),
      least: Math.min(...altitudes),
    },
    moonSeparationDeg: leastMoon(slots, choice.target),
    transitMs,
    dither: ditherOf(choice, cadence, question),
    trains,
  };
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

function ditherOf({ picks }: Choice, { subs, waitMs, cycleMs }: Cadence, { trains }: PlanQuestion): DithersInStep {
  const exposing = trains.filter((_, index) => picks[index]);
  return {
    subs: Object.fromEntries(exposing.map(({ id }, i) => [id, itemAt(subs, i)])),
    everyMs: cycleMs,
    waitMs: Object.fromEntries(exposing.map(({ id }, i) => [id, itemAt(waitMs, i)])),
  };
}
