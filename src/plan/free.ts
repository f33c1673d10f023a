/** Darkness that a plan leaves free, and why: an hour without explanation would seem to be forgotten. */
import {
  durationMs,
  groupBy,
  hull,
  itemAt,
  overlapMs,
  subtract,
  type FreeReason,
  type FreeStretch,
  type PlannedBlock,
} from '../model/index.js';
import { filtersFor, type OpenLine } from './lines.js';
import { LEAST_LACKING_HOURS } from './practice.js';
import type { NightToPlan, PlanQuestion, Slot } from './question.js';
import { isWorthWithoutMoon, runsUp } from './without-moon.js';

/** Shorter ones are the time between two activities. */
const LEAST_FREE_MS = 20 * 60_000;

/** The first applicable reason of a target's lines represents the target: the closest to being scheduled. */
const NEAREST: readonly FreeReason[] = [
  'moon-effort',
  'effort',
  'moon-twilight',
  'twilight',
  'moon',
  'later',
  'reached',
  'low',
  'no-train',
];

/** A line with what it lacked at dusk and lacks at dawn, hours. */
interface NightLine {
  readonly line: OpenLine;
  readonly atDusk: number;
  readonly atDawn: number;
}

/**
 * The free intervals of a night.
 *
 * @param lines what is left after it
 * @param atDusk what each line lacked before it, hours
 */
export function freeStretches(
  night: NightToPlan,
  blocks: readonly PlannedBlock[],
  lines: readonly OpenLine[],
  atDusk: readonly number[],
  question: PlanQuestion,
): FreeStretch[] {
  const window = hull(night.slots.map(({ span }) => span));
  if (window === null) return [];
  const open = lines.flatMap((line, i): NightLine[] =>
    itemAt(atDusk, i) >= LEAST_LACKING_HOURS ? [{ line, atDusk: itemAt(atDusk, i), atDawn: line.left }] : [],
  );
  const byTarget = groupBy(open, ({ line }) => line.target);
  const free = subtract(
    [window],
    blocks.map(({ span }) => span),
  );
  return free.flatMap((span): FreeStretch[] => {
    if (durationMs(span) < LEAST_FREE_MS) return [];
    const slots = night.slots.filter((slot) => overlapMs(slot.span, span) > 0);
    const reasons = [...byTarget].map(([target, own]) => ({
      target: itemAt(question.targets, target).name,
      reasons: withoutRepeats(reasonsIn(slots, target, own, blocks, question)),
    }));
    const alike = groupBy(reasons, (one) => one.reasons.join());
    return [
      {
        span,
        why: [...alike.values()].map((group) => ({
          targets: group.map(({ target }) => target),
          reasons: itemAt(group, 0).reasons,
        })),
      },
    ];
  });
}

/** A target's reason in each slot: the Moon, if without it a visit would have been worthwhile. */
function reasonsIn(
  slots: readonly Slot[],
  target: number,
  lines: readonly NightLine[],
  blocks: readonly PlannedBlock[],
  question: PlanQuestion,
): FreeReason[] {
  const open = lines.map(({ line }) => line);
  const moonlit = new Set(
    runsUp(slots, target)
      .filter((run) => isWorthWithoutMoon(run, target, open, question))
      .flat(),
  );
  return slots.map((slot) => {
    const reason = reasonIn(slot, target, lines, blocks, question);
    return reason === 'effort' && moonlit.has(slot) ? 'moon-effort' : reason;
  });
}

function reasonIn(
  slot: Slot,
  target: number,
  lines: readonly NightLine[],
  blocks: readonly PlannedBlock[],
  question: PlanQuestion,
): FreeReason {
  const sky = slot.targets.at(target);
  if (sky?.isUp !== true) return 'low';
  const { trains } = question;
  const reasons = new Set<FreeReason>();
  for (const { line, atDawn } of lines)
    for (const filter of new Set(trains.flatMap((train) => filtersFor(train, line, trains)))) {
      const bar = sky.bar(filter);
      if (atDawn >= LEAST_LACKING_HOURS) reasons.add(bar ?? 'effort');
      else reasons.add(isBefore(blocks, line, filter, slot, question) ? 'reached' : 'later');
    }
  if (reasons.has('moon') && reasons.has('twilight')) reasons.add('moon-twilight');
  return NEAREST.find((reason) => reasons.has(reason)) ?? 'no-train';
}

/** Whether what a line needed has been taken before a slot. */
function isBefore(
  blocks: readonly PlannedBlock[],
  { target, train }: OpenLine,
  filter: string,
  slot: Slot,
  { targets }: PlanQuestion,
): boolean {
  const name = targets.at(target)?.name;
  const last = blocks.findLast(
    (block) =>
      block.target === name &&
      block.trains.some(
        (one) => one.state === 'exposes' && one.filter === filter && (train === null || one.train === train),
      ),
  );
  return last !== undefined && last.span.endMs <= slot.span.startMs;
}

function withoutRepeats<T>(items: readonly T[]): T[] {
  return items.filter((item, i) => i === 0 || item !== items[i - 1]);
}
