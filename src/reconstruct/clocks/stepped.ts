/**
 * Clocks set by a whole hour in the night: the step is taken out where header and log of the same exposures prove it,
 * or where without it, and only so, one offset to the other trains holds all night.
 */
import {
  interval,
  NO_WITNESS,
  type ClockNote,
  type HeaderFrame,
  type LineTimes,
  type NightClocks,
  type TellingEvent,
} from '../../model/index.js';
import { stepInFrames } from './hour-in-frames.js';
import { HOUR_MS, isHour, stepInLines, stepInPairs, type HourStep, type Writing } from './hour-step.js';
import type { ClockInput } from './input.js';

/** The clocks of a night in which none was set, and the steps that were taken out to make it so. */
export interface Unstepped {
  readonly clocks: NightClocks;
  readonly steps: readonly HourStep[];
}

/**
 * Takes steps of an hour out.
 *
 * @param compare compares clocks none of which was set in the night
 */
export function unstepped(input: ClockInput, compare: (input: ClockInput) => NightClocks): Unstepped {
  const isFree = (train: string): boolean => !input.byHandMs.has(train);
  const proven = input.trains.filter(isFree).flatMap((train) => stepInPairs(writingOf(input, train)) ?? []);
  const own = proven.reduce(withoutStep, input);
  const clocks = compare(own);
  const further = hypotheses(own, clocks.notes).filter(({ train }) => isFree(train));
  for (const step of further) {
    const tried = compare(withoutStep(own, step));
    // Without another train nothing says on which side of a step the time was right.
    if (tried.notes.length > 0 && settles(tried.notes, clocks.notes))
      return { clocks: tried, steps: [...proven, step] };
  }
  return { clocks, steps: proven };
}

/** What a step adds to a time as written, ms. */
export function stepMs(steps: readonly HourStep[], train: string, written: TellingEvent | HeaderFrame): number {
  const own = { ...written, train };
  return steps.reduce((ms, step) => (step.train === train && step.isAfter(own) ? ms + step.byMs : ms), 0);
}

function writingOf({ trains, headers, events }: ClockInput, train: string): Writing {
  const [pilot] = trains;
  return {
    train,
    headers: headers.filter((h) => h.train === train),
    events: events.filter((e) => (e.train ?? pilot) === train),
  };
}

/**
 * Steps that would explain clocks in doubt: where in a log, or in frames alone, an hour is missing, or comes twice. One
 * camera that exposes twice at once casts doubt on its clock by itself.
 */
function hypotheses(input: ClockInput, notes: readonly ClockNote[]): HourStep[] {
  const isInDoubt = notes.some(isDoubtful);
  const [pilot] = input.trains;
  return input.trains.flatMap((train) => {
    const writing = writingOf(input, train);
    return [HOUR_MS, -HOUR_MS]
      .filter((byMs) => byMs > 0 || train !== pilot || input.isGuided !== true)
      .flatMap((byMs) => {
        const inFrames = isInDoubt || byMs < 0 ? stepInFrames(writing, byMs) : null;
        return inFrames ?? (isInDoubt ? (stepInLines(writing, byMs) ?? []) : []);
      });
  });
}

/** A clock that was set, that nothing settles, or whose offset a step of an hour in half of the night would leave. */
function isDoubtful(note: ClockNote): boolean {
  return isOpen(note) || (note.isKnown && isHour(note.aheadMs));
}

function isOpen({ jump, isKnown, by }: ClockNote): boolean {
  return jump !== undefined || (!isKnown && by !== NO_WITNESS);
}

/**
 * Whether fewer clocks are open without the step, none for another jump, and none that was not before. If none was
 * open, the step must be in place of an offset of an hour.
 */
function settles(after: readonly ClockNote[], before: readonly ClockNote[]): boolean {
  const open = after.filter(isOpen);
  const wasOpen = ({ train, source }: ClockNote): boolean =>
    before.some((b) => b.train === train && b.source === source && b.jump === undefined && !b.isKnown);
  if (!open.every((note) => note.jump === undefined && wasOpen(note))) return false;
  const openBefore = before.filter(isOpen).length;
  return openBefore > 0 ? open.length < openBefore : !after.some(isDoubtful);
}

function withoutStep(input: ClockInput, step: HourStep): ClockInput {
  const [pilot] = input.trains;
  return {
    ...input,
    headers: input.headers.map((h) =>
      h.train === step.train && h.exposure !== undefined && step.isAfter(h)
        ? { ...h, exposure: interval(h.exposure.startMs - step.byMs, h.exposure.endMs - step.byMs) }
        : h,
    ),
    events: input.events.map((e) =>
      (e.train ?? pilot) === step.train && step.isAfter(e) ? { ...e, atMs: e.atMs - step.byMs } : e,
    ),
    lineTimes: input.lineTimes.map((own) => ((own.train ?? pilot) === step.train ? linesWithout(own, step) : own)),
  };
}

/** A log's lines without the step. */
export function linesWithout(own: LineTimes, step: HourStep): LineTimes {
  const from = step.lineFrom(own);
  return { ...own, atMs: own.atMs.map((ms, i) => (i < from ? ms : ms - step.byMs)) };
}
