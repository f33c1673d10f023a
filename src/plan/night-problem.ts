/** A night of the question as an optimisation problem. */
import { durationMs, itemAt, sum } from '../model/index.js';
import { cadenceOf, type Cadence } from './cadence.js';
import { filtersFor, lineValue, subFor, trainValue, type OpenLine } from './lines.js';
import {
  FILTER_CHANGE_MS,
  FILTER_EFFORT_HOURS,
  FLIP_MS,
  HOUR_EFFORT,
  LEAST_LACKING_HOURS,
  REFOCUS_EVERY_MS,
  REFOCUS_MS,
  SOONER_VALUE,
  TARGET_CHANGE_MS,
  TARGET_EFFORT_HOURS,
} from './practice.js';
import type { Choice, Pick, Problem } from './problem.js';
import { promisingTargets } from './promising.js';
import type { NightToPlan, PlanQuestion, Slot } from './question.js';

const HOUR_MS = 3_600_000;
/** Picks per train and target, the most valuable, by the number of trains: choices are their products. */
const MOST_PICKS: readonly number[] = [0, 8, 6, 3];

/** Sets up a night. @param lines the remainder, of all targets */
export function nightProblem(night: NightToPlan, lines: readonly OpenLine[], question: PlanQuestion): Problem {
  const { targets, trains, ditherMs, narrowband } = question;
  const promising = promisingTargets(night, lines, question);
  const factor = (line: number, train: number, filter: string): number => {
    const [open, own] = [lines[line], trains.at(train)];
    const target = open && targets.at(open.target);
    return open && own && target ? lineValue(target, open) * trainValue(own, trains, filter, narrowband) : 0;
  };
  const choices: Choice[] = [{ target: -1, picks: trains.map(() => null) }];
  for (const target of promising) {
    const perTrain = trains.map((train, index) => {
      const picks = lines.flatMap((line, at): Pick[] =>
        line.target === target && line.left >= LEAST_LACKING_HOURS
          ? filtersFor(train, line, trains).map((filter) => ({ line: at, filter }))
          : [],
      );
      return mostValuable(picks, MOST_PICKS[trains.length] ?? 1, ({ line, filter }) => {
        return bestOf(night, target, filter) * factor(line, index, filter);
      });
    });
    for (const picks of products(perTrain)) if (picks.some((pick) => pick !== null)) choices.push({ target, picks });
  }
  const cadences = choices.map(({ picks }) => cadenceFor(picks, { trains, ditherMs }));
  const focusing = 1 - REFOCUS_MS / REFOCUS_EVERY_MS;
  const rates = choices.map(({ picks }, index) => {
    const cadence = itemAt(cadences, index);
    let exposing = 0;
    return picks.map((pick, train) =>
      pick && cadence ? itemAt(cadence.openShares, exposing++) * itemAt(trains, train).keptShare * focusing : 0,
    );
  });
  // The same in every slot.
  const factors = choices.map(({ picks }) =>
    picks.map((pick, train) => (pick ? factor(pick.line, train, pick.filter) : 0)),
  );
  const full = choices.map(({ target, picks }, index) =>
    picks.map((pick, train) => (pick ? bestOf(night, target, pick.filter) * itemAt(itemAt(factors, index), train) : 0)),
  );
  /** The mount is there for all trains, whether or not they expose. */
  const bestHours = targets.map((_, target) => {
    const own = full.filter((_row, i) => choices[i]?.target === target);
    return sum(trains.map((_train, at) => Math.max(0, ...own.map((row) => itemAt(row, at)))));
  });
  return {
    choices,
    lacking: lines.map(({ left }) => left),
    lost: {
      target: TARGET_CHANGE_MS / HOUR_MS,
      filter: FILTER_CHANGE_MS / HOUR_MS,
      partner: REFOCUS_MS / HOUR_MS,
    },
    effort: {
      target: TARGET_EFFORT_HOURS,
      filter: FILTER_EFFORT_HOURS,
      hour: bestHours.map((value) => HOUR_EFFORT * value),
    },
    full,
    slots: night.slots.map((slot, at) => ({
      hours: durationMs(slot.span) / HOUR_MS,
      flips: slot.targets.map(({ transitMs }) => (transitMs === null ? 0 : FLIP_MS / HOUR_MS)),
      values: choices.map(({ target, picks }, index) => {
        const own = itemAt(factors, index);
        return picks.map((pick, train) =>
          pick ? soonness(at) * worthIn(slot, target, pick.filter) * itemAt(own, train) : 0,
        );
      }),
      rates,
    })),
  };
}

/** Of two equal hours the earlier counts more: clouds may come. @param slot since dusk */
function soonness(slot: number): number {
  return 1 - SOONER_VALUE * slot;
}

function worthIn(slot: Slot, target: number, filter: string): number {
  const sky = slot.targets.at(target);
  return sky?.isUp === true ? sky.worth(filter) : 0;
}

/** Maximum value of an hour through a filter on this night. */
function bestOf({ slots }: NightToPlan, target: number, filter: string): number {
  return Math.max(0, ...slots.map((slot) => worthIn(slot, target, filter)));
}

function cadenceFor(
  picks: readonly (Pick | null)[],
  { trains, ditherMs }: { trains: PlanQuestion['trains']; ditherMs: number },
): Cadence | null {
  const exposing = trains.flatMap((train, i) => {
    const pick = picks[i];
    return pick
      ? [{ train: train.id, subMs: subFor(train, pick.filter) * 1000, betweenSubsMs: train.betweenSubsMs }]
      : [];
  });
  return exposing.length === 0 ? null : cadenceOf(exposing, ditherMs);
}

function mostValuable<T>(items: readonly T[], most: number, value: (item: T) => number): (T | null)[] {
  const useful = items.map((item) => ({ item, value: value(item) })).filter((one) => one.value > 0);
  useful.sort((a, b) => b.value - a.value);
  return [...useful.slice(0, most).map(({ item }) => item), null];
}

function products<T>(lists: readonly (readonly T[])[]): T[][] {
  return lists.reduce<T[][]>((all, list) => all.flatMap((head) => list.map((one) => [...head, one])), [[]]);
}
