/** The targets considered for a night: of hundreds, only the most promising ones in some part of it. */
import { sum } from '../model/index.js';
import { filtersFor, lineValue, trainValue, type OpenLine } from './lines.js';
import { LEAST_LACKING_HOURS } from './practice.js';
import type { NightToPlan, PlanQuestion } from './question.js';

/** More targets than these take minutes, and change next to nothing. */
export const MOST_TARGETS = 16;

/** Indices of the targets to plan with. In each slot the best comes first, then the second best, and so on. */
export function promisingTargets(
  night: NightToPlan,
  lines: readonly OpenLine[],
  question: PlanQuestion,
): ReadonlySet<number> {
  const open = lines.filter(({ left }) => left >= LEAST_LACKING_HOURS);
  const wanted = new Set(open.map(({ target }) => target));
  if (wanted.size <= MOST_TARGETS) return wanted;
  const picks = [...wanted].map((target) => ({ target, picks: picksOf(target, open, question) }));
  const ranked = night.slots.map((slot) =>
    picks
      .map(({ target, picks: own }) => {
        const sky = slot.targets.at(target);
        const worth = (perTrain: readonly TrainPick[]): number =>
          Math.max(0, ...perTrain.map(({ filter, value }) => value * (sky?.isUp === true ? sky.worth(filter) : 0)));
        return { target, value: sum(own.map(worth)) };
      })
      .filter(({ value }) => value > 0)
      .sort((a, b) => b.value - a.value),
  );
  const chosen = new Set<number>();
  for (let rank = 0; chosen.size < MOST_TARGETS && ranked.some((slot) => slot.length > rank); rank++)
    for (const slot of ranked) {
      const own = slot[rank];
      if (own && chosen.size < MOST_TARGETS) chosen.add(own.target);
    }
  return chosen;
}

interface TrainPick {
  readonly filter: string;
  readonly value: number;
}

/** By train, what an hour through each filter counts; a goal that needs less than an hour counts for its share. */
function picksOf(target: number, lines: readonly OpenLine[], question: PlanQuestion): TrainPick[][] {
  const { targets, trains, narrowband } = question;
  const own = targets.at(target);
  if (!own) return [];
  return trains.map((train) =>
    lines.flatMap((line): TrainPick[] =>
      line.target === target
        ? filtersFor(train, line, trains).map((filter) => ({
            filter,
            value: Math.min(1, line.left) * lineValue(own, line) * trainValue(train, trains, filter, narrowband),
          }))
        : [],
    ),
  );
}
