/**
 * One night as an optimisation problem: in each slot one target, and on each train one of the lines that the target
 * lacks. A change of target costs every train its time, a change of filter that train's; a line takes no more than it
 * lacks.
 */
import { itemAt } from '../model/collections.js';

/** What one train does: hours for a line, through a filter. */
export interface Pick {
  readonly line: number;
  readonly filter: string;
}

/** What may be done in a slot: a target, and per train a pick or nothing. Target −1 is idle. */
export interface Choice {
  readonly target: number;
  readonly picks: readonly (Pick | null)[];
}

export interface Problem {
  /** The first one is rest. */
  readonly choices: readonly Choice[];
  /** Hours that each line lacks. */
  readonly lacking: readonly number[];
  /** Per slot. */
  readonly slots: readonly ProblemSlot[];
  /** Hours that a train loses when the target changes, when its filter does, and when only another train's does. */
  readonly lost: { readonly target: number; readonly filter: number; readonly partner: number };
  /**
   * Minimum gain of a change besides its time, for someone has to do it and to watch it: of a train's filter, in hours
   * through the new one; of the target, in hours of the best of them, in addition to the filters. And the minimum gain
   * of an hour on a target, by target, in value: of two equivalent sequences the shorter one is better.
   */
  readonly effort: { readonly target: number; readonly filter: number; readonly hour: readonly number[] };
  /** Value of a kept hour at the night's best, by choice and train. */
  readonly full: readonly (readonly number[])[];
}

export interface ProblemSlot {
  /** Length, hours. */
  readonly hours: number;
  /** Value of a kept hour, by choice and train; 0 if not possible. */
  readonly values: readonly (readonly number[])[];
  /** Kept hours per clock hour, by choice and train. */
  readonly rates: readonly (readonly number[])[];
  /** Hours lost by a meridian flip, by target. */
  readonly flips: readonly number[];
}

/** Index of the choice to do nothing. */
export const REST = 0;

/** What changes from one choice to the next: the target, or the filters of some trains (bit n for train n). */
export type Change = 'target' | number;

export function changeOf(from: Choice | undefined, to: Choice): Change {
  if (from?.target !== to.target) return 'target';
  return to.picks.reduce(
    (trains, pick, train) => (pick && from.picks.at(train)?.filter !== pick.filter ? trains | (1 << train) : trains),
    0,
  );
}

/** Hours of the clock that a train has in a slot after a change. */
export function openHours({ slots, lost }: Problem, slot: number, to: Choice, change: Change, train: number): number {
  const own = slots[slot];
  if (!own || to.target < 0) return 0;
  const isOwn = change !== 'target' && isIn(change, train);
  // All trains focus when one has to.
  const lostHours = change === 'target' ? lost.target : isOwn ? lost.filter : change > 0 ? lost.partner : 0;
  return Math.max(0, own.hours - lostHours - itemAt(own.flips, to.target));
}

/** What a slot costs beside its time, in value. @param index of `to` among the choices */
export function effortOf({ effort, full, slots }: Problem, slot: number, to: Choice, index: number, change: Change) {
  if (to.target < 0) return 0;
  const own = itemAt(effort.hour, to.target) * itemAt(slots, slot).hours;
  const values = itemAt(full, index);
  if (change === 'target') return own + effort.target * Math.max(...values) + effort.filter * sumOf(values);
  return own + effort.filter * values.reduce((sum, value, train) => sum + (isIn(change, train) ? value : 0), 0);
}

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}

function isIn(trains: number, train: number): boolean {
  return ((trains >> train) & 1) === 1;
}

/** Whether all of a choice's picks have value in a slot: otherwise it is not a choice. */
export function isOpen({ choices, slots }: Problem, slot: number, index: number): boolean {
  const values = itemAt(itemAt(slots, slot).values, index);
  return itemAt(choices, index).picks.every((pick, train) => pick === null || itemAt(values, train) > 0);
}

/** The value of a sequence through the night, and what each train adds, by slot and train, kept hours. */
export interface Outcome {
  readonly value: number;
  readonly added: readonly (readonly number[])[];
  readonly left: readonly number[];
}

/**
 * Follows a sequence through the night, slot after slot; lines are used up as they are filled. If a choice is
 * impossible the mount is idle, and returns to its target as to another.
 */
export function follow(problem: Problem, way: readonly number[]): Outcome {
  const left = [...problem.lacking];
  let value = 0;
  let from: Choice | undefined;
  const added = way.map((index, slot) => {
    const choice = problem.choices[index];
    if (!choice) return [];
    if (!isOpen(problem, slot, index)) {
      from = undefined;
      return choice.picks.map(() => 0);
    }
    const change = changeOf(from, choice);
    const hours = choice.picks.map((pick, train) => {
      if (!pick) return 0;
      const here = itemAt(problem.slots, slot);
      const worth = itemAt(itemAt(here.values, index), train);
      if (worth <= 0) return 0;
      const rate = itemAt(itemAt(here.rates, index), train);
      const taken = Math.min(itemAt(left, pick.line), rate * openHours(problem, slot, choice, change, train));
      left[pick.line] = itemAt(left, pick.line) - taken;
      value += worth * taken;
      return taken;
    });
    value -= effortOf(problem, slot, choice, index, change);
    from = choice;
    return hours;
  });
  return { value, added, left };
}

/** Only the value of a sequence. */
export function worthOfWay(problem: Problem, way: readonly number[]): number {
  return follow(problem, way).value;
}
