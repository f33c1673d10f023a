/** What the planned nights leave of the goals, and why: a goal without explanation would seem to be forgotten. */
import { durationMs, overlapMs, sum, type LeftReason, type PlannedLeft, type PlannedNight } from '../model/index.js';
import { filtersFor } from './lines.js';
import { LEAST_LACKING_HOURS } from './practice.js';
import type { PlanLine, PlanQuestion, Slot } from './question.js';

/** Less than this is nothing, hours. */
const NOTHING_HOURS = 0.05;
const HOUR_MS = 3_600_000;

/** The lines that still lack something after the last night. */
export function leftAfter(question: PlanQuestion, nights: readonly PlannedNight[]): PlannedLeft[] {
  return question.targets.flatMap(({ name, lines }, target) =>
    lines.flatMap((line): PlannedLeft[] => {
      const added = nights.flatMap((night) =>
        night.lines.filter((one) => one.target === name && one.filter === line.filter && one.train === line.train),
      );
      const lacksHours = line.hours - sum(added.map(({ addsHours }) => addsHours));
      if (lacksHours < NOTHING_HOURS) return [];
      const why = lacksHours < LEAST_LACKING_HOURS ? 'little' : whyNot(question, nights, target, line);
      return [{ target: name, filter: line.filter, train: line.train, lacksHours, why }];
    }),
  );
}

function whyNot(question: PlanQuestion, nights: readonly PlannedNight[], target: number, line: PlanLine): LeftReason {
  const slots = question.nights.flatMap((night) => night.slots);
  if (slots.length === 0) return 'never-dark';
  const up = slots.filter((slot) => slot.targets.at(target)?.isUp === true);
  if (up.length === 0) return 'never-up';
  const filters = [...new Set(question.trains.flatMap((train) => filtersFor(train, line, question.trains)))];
  if (filters.length === 0) return 'no-train';
  const had = up.filter((slot) => filters.some((filter) => (slot.targets.at(target)?.worth(filter) ?? -1) > 0));
  if (had.length === 0) return 'sky';
  if (!isFree(had, nights)) return 'time';
  return isTakenByMoon(up, target, filters) ? 'moon-effort' : 'effort';
}

/** Whether the Moon takes more than half of the value of a target's hours. */
function isTakenByMoon(up: readonly Slot[], target: number, filters: readonly string[]): boolean {
  return filters.every((filter) => {
    const worth = (of: 'worth' | 'moonless'): number =>
      sum(up.map((slot) => durationMs(slot.span) * (slot.targets.at(target)?.[of](filter) ?? -1)));
    return worth('worth') < worth('moonless') / 2;
  });
}

/** Whether an hour or more of these slots is free in the plan, or half of them: then it was not worthwhile. */
function isFree(slots: readonly Slot[], nights: readonly PlannedNight[]): boolean {
  const spans = nights.flatMap(({ blocks }) => blocks.map(({ span }) => span));
  const free = slots.filter((slot) => !spans.some((span) => overlapMs(span, slot.span) > 0));
  const lengthMs = (some: readonly Slot[]): number => sum(some.map(({ span }) => durationMs(span)));
  return lengthMs(free) >= Math.min(HOUR_MS, lengthMs(slots) / 2);
}
