/**
 * The plan: what to image on the coming nights, one target at a time for all trains of a mount. Each night is planned
 * as if it were clear, to maximise its own value; the next one starts with the remaining goals. The sky is passed in.
 */
import { hull, itemAt, union, type PlannedBlock, type PlannedNight } from '../model/index.js';
import { blockOf, type Stretch } from './blocks.js';
import { freeStretches } from './free.js';
import { openLines, type OpenLine } from './lines.js';
import { nightProblem } from './night-problem.js';
import { follow, type Problem } from './problem.js';
import { solve } from './solve.js';
import { tidied } from './tidy.js';
import type { NightToPlan, PlanQuestion } from './question.js';

export { assumptionsOf } from './assumptions.js';
export { leftAfter } from './left.js';
export { MOST_TARGETS } from './promising.js';
export { UNKNOWN_SUB_SECONDS } from './practice.js';
export { sharePlan } from './shared.js';
export type {
  NightToPlan,
  PlanLine,
  PlanQuestion,
  PlanTarget,
  PlanTrain,
  SkyBar,
  Slot,
  TargetInSlot,
} from './question.js';

/** Plans the nights one after another. */
export function planNights(question: PlanQuestion): PlannedNight[] {
  const lines = openLines(question.targets);
  return question.nights.map((night) => planNight(night, lines, question));
}

function planNight(night: NightToPlan, lines: readonly OpenLine[], question: PlanQuestion): PlannedNight {
  const problem = nightProblem(night, lines, question);
  const solution = solve(problem);
  const way = tidied(problem, solution.way);
  const { value, added } = follow(problem, way);
  const before = lines.map(({ left }) => left);
  const blocks = blocksOf(stretchesOf(night, problem, way, added), lines, question);
  return {
    date: night.date,
    window: hull(night.slots.map((slot) => slot.span)),
    moonIllumination: night.moonIllumination,
    moonUp: union(night.slots.flatMap(({ span, moonAltitudeDeg }) => (moonAltitudeDeg > 0 ? [span] : []))),
    blocks,
    free: freeStretches(night, blocks, lines, before, question),
    lines: lines.flatMap(({ target, filter, train, left }, i) => {
      const addsHours = itemAt(before, i) - left;
      const name = question.targets.at(target)?.name;
      return addsHours > 0 && name !== undefined ? [{ target: name, filter, train, addsHours, lacksHours: left }] : [];
    }),
    shortOfBest: solution.bound > 0 ? 1 - value / solution.bound : 0,
  };
}

/** The blocks one after another; those without any difference in what to do are merged. */
function blocksOf(stretches: readonly Stretch[], lines: readonly OpenLine[], question: PlanQuestion): PlannedBlock[] {
  const made: { readonly stretch: Stretch; readonly block: PlannedBlock; readonly left: readonly number[] }[] = [];
  const restore = (left: readonly number[]): void => {
    lines.forEach((line, i) => {
      line.left = itemAt(left, i);
    });
  };
  stretches.forEach((stretch, i) => {
    const left = lines.map((line) => line.left);
    const last = made.at(-1);
    const block = blockOf(stretch, lines, question, last?.block, stretches[i + 1]);
    if (block === null) return;
    if (last && !block.isNewTarget && isAlike(last.block, block)) {
      const after = lines.map((line) => line.left);
      restore(last.left);
      const whole = joined(last.stretch, stretch);
      const one = blockOf(whole, lines, question, made.at(-2)?.block, stretches[i + 1]);
      if (one && goesOnIn(block, one)) {
        made.splice(-1, 1, { stretch: whole, block: one, left: last.left });
        return;
      }
      restore(after);
    }
    made.push({ stretch, block, left });
  });
  return made.map(({ block }) => block);
}

/** Whether all trains do the same in two blocks. */
function isAlike(a: PlannedBlock, b: PlannedBlock): boolean {
  const filtersOf = ({ trains }: PlannedBlock) =>
    trains.map((train) => (train.state === 'exposes' ? train.filter : '')).join('\n');
  return filtersOf(a) === filtersOf(b);
}

/** Whether everything done in a block is done in the longer one: an idle train may have found something. */
function goesOnIn(block: PlannedBlock, longer: PlannedBlock): boolean {
  return block.trains.every((train, at) => {
    const there = longer.trains.at(at);
    return train.state === 'rests' || (there?.state === 'exposes' && there.filter === train.filter);
  });
}

function joined(first: Stretch, second: Stretch): Stretch {
  const picks = first.choice.picks.map((pick, train) => pick ?? second.choice.picks.at(train) ?? null);
  return { choice: { ...first.choice, picks }, slots: [...first.slots, ...second.slots] };
}

/** Consecutive slots of one choice; those that add nothing are pauses. */
function stretchesOf(
  { slots }: NightToPlan,
  { choices }: Problem,
  way: readonly number[],
  added: readonly (readonly number[])[],
): Stretch[] {
  const stretches: (Stretch & { readonly index: number; readonly endMs: number })[] = [];
  way.forEach((index, at) => {
    const [choice, slot] = [choices[index], slots[at]];
    if (!choice || choice.target < 0 || !slot || !added[at]?.some((hours) => hours > 0)) return;
    const last = stretches.at(-1);
    if (last?.endMs === slot.span.startMs && last.index === index)
      stretches.splice(-1, 1, { ...last, slots: [...last.slots, slot], endMs: slot.span.endMs });
    else stretches.push({ index, choice, slots: [slot], endMs: slot.span.endMs });
  });
  return stretches;
}
