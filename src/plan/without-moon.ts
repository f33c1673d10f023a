/** The value of a plan's free hours without the Moon: whether it is the reason. */
import { durationMs, sum } from '../model/index.js';
import { filtersFor, type OpenLine } from './lines.js';
import {
  FILTER_EFFORT_HOURS,
  HOUR_EFFORT,
  LEAST_LACKING_HOURS,
  TARGET_CHANGE_MS,
  TARGET_EFFORT_HOURS,
} from './practice.js';
import type { PlanQuestion, Slot, TargetInSlot } from './question.js';

const HOUR_MS = 3_600_000;

/** Slots that follow each other and in all of which a target is up. */
export function runsUp(slots: readonly Slot[], target: number): Slot[][] {
  const runs: Slot[][] = [];
  let run: Slot[] | undefined;
  for (const slot of slots) {
    if (slot.targets.at(target)?.isUp !== true) {
      run = undefined;
      continue;
    }
    if (run === undefined) runs.push((run = []));
    run.push(slot);
  }
  return runs;
}

/**
 * Whether a visit to a target in these slots would be worthwhile without the Moon: what is then taken through one
 * filter, minus the time of the change, compared with the minimum gain of a visit.
 *
 * @param run slots that follow each other, the target up in all of them
 */
export function isWorthWithoutMoon(
  run: readonly Slot[],
  target: number,
  lines: readonly OpenLine[],
  { trains }: PlanQuestion,
): boolean {
  const skies = run.flatMap((slot) => {
    const sky = slot.targets.at(target);
    return sky ? [{ sky, hours: durationMs(slot.span) / HOUR_MS }] : [];
  });
  return lines.some((line) => {
    if (line.left < LEAST_LACKING_HOURS) return false;
    const filters = new Set(trains.flatMap((train) => filtersFor(train, line, trains)));
    return [...filters].some((filter) => {
      if (!skies.some(({ sky }) => isDimmed(sky, filter))) return false;
      const best = Math.max(...skies.map(({ sky }) => sky.moonless(filter)));
      const taken = sum(skies.map(({ sky, hours }) => hours * sky.moonless(filter)));
      const change = (TARGET_CHANGE_MS / HOUR_MS) * best;
      const effort = TARGET_EFFORT_HOURS + FILTER_EFFORT_HOURS + HOUR_EFFORT * sum(skies.map(({ hours }) => hours));
      return Math.min(line.left * best, taken - change) > effort * best;
    });
  });
}

function isDimmed(sky: TargetInSlot, filter: string): boolean {
  return sky.moonless(filter) > sky.worth(filter);
}
