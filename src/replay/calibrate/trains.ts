/** One train's part according to its frames and log: its plan, its durations, its refocuses, its absences. */
import {
  durationMs,
  interval,
  median,
  subtract,
  sum,
  type Interval,
  type JudgedFrame,
  type AccountedNight,
  type DitherCycle,
  type Train,
  ownValue,
  itemAt,
} from '../../model/index.js';
import type { Absence, Block, StopShare, TrainCourse } from '../course.js';
import { blocksOf, placeInPlan } from './blocks.js';
import { durationsOf } from './durations.js';
import { focusRunsOf } from './focus-runs.js';
import { cycleEndMs, dueBefore, type Idle } from './idles.js';
import { askedMs, lengthsOf, longerUpTo, longestSub, type ReplayedNight } from './lengths.js';
import { movedUnder, type Stretch } from './stretches.js';

/** Unexplained idle time is an absence from this length on, ms. */
const ABSENCE_MS = 90_000;
/** A turnaround if none could be measured, ms. Common practice, no source. */
const ASSUMED_TURNAROUND_MS = 3000;
/** A train that begins later than this after a pointing was absent, rather than slow to resume, ms. */
const LATE_RESUME_MS = 1_200_000;
/** A shutter that closed within this of a hold's begin was cut by it, ms. */
const CUT_MS = 5000;

/** The course of one train; `lights` are its own, at least one. */
export function trainCourse(
  train: Train,
  lights: readonly JudgedFrame[],
  idles: readonly Idle[],
  night: ReplayedNight,
): TrainCourse {
  const turnarounds = durationsOf(
    idles.map((idle) => turnaroundMs(idle, train.id)),
    ASSUMED_TURNAROUND_MS,
  );
  const idleOf = firstIdles(idles);
  const resumes = durationsOf(
    night.accounts.dithers.map((cycle) => {
      const idle = idleOf.get(cycle);
      if (!idle || idle.stretch || idle.focus.length > 0) return null;
      const ms = idle.span.endMs - cycleEndMs(cycle) - idle.filterMs;
      // A dither that happened to fall between two subs is not one that the train resumed from.
      if (ms < 0 && ownValue(cycle.waits, train.id)?.certainty !== 'measured') return null;
      return ms <= ABSENCE_MS ? ms : null;
    }),
    0,
  );
  const blocks = blocksOf(lights, idles);
  const usualMs = Math.round(median(lights.map(askedMs)));
  return {
    id: train.id,
    startMs: itemAt(lights, 0).exposure.startMs,
    endMs: lights.reduce((latest, f) => Math.max(latest, f.exposure.endMs), 0),
    blocks,
    usualMs,
    turnarounds,
    resumes,
    focusRuns: focusRunsOf(train.id, { lights, idles, blocks }, night),
    absences: [
      ...absencesOf(train.id, idles, turnarounds.typicalMs, night.accounts.dithers),
      ...ownHolds(train.id, lights, night),
    ].sort((a, b) => a.dueMs - b.dueMs),
    pixelScaleArcsec: train.pixelScaleArcsec ?? null,
    darkLengthsMs: lengthsOf(train.id, lights, night),
    longestSub: longestSub(train.id, lights, night),
    longerUpToMs: longerUpTo(train.id, usualMs, night),
  };
}

/** The first idle that each dither began in. */
function firstIdles(idles: readonly Idle[]): ReadonlyMap<DitherCycle, Idle> {
  const first = new Map<DitherCycle, Idle>();
  for (const idle of idles) for (const cycle of idle.cycles) if (!first.has(cycle)) first.set(cycle, idle);
  return first;
}

/** From the shutter's end until the train was free: to its next exposure, or to its readiness for a dither. */
function turnaroundMs(idle: Idle, train: string): number | null {
  if (idle.stretch || idle.focus.length > 0 || idle.pausedMs > 0) return null;
  const lengthMs = durationMs(idle.span);
  const first = idle.cycles[0];
  if (!first) return lengthMs - idle.filterMs <= ABSENCE_MS ? Math.max(0, lengthMs - idle.filterMs) : null;
  const wait = ownValue(first.waits, train);
  if (!wait) return null;
  const readyAfterMs = wait.readyMs - idle.span.startMs;
  return readyAfterMs >= 0 && readyAfterMs <= ABSENCE_MS ? readyAfterMs : null;
}

function absencesOf(
  train: string,
  idles: readonly Idle[],
  turnaroundMs: number,
  dithers: readonly DitherCycle[],
): Absence[] {
  return idles.flatMap((idle): Absence[] => {
    const { span } = idle;
    const explained: Interval[] = [
      interval(span.startMs, span.startMs + turnaroundMs),
      ...idle.cycles.map((c) =>
        interval(Math.min(c.beginMs, ownValue(c.waits, train)?.readyMs ?? c.beginMs), cycleEndMs(c)),
      ),
      ...idle.focus.map((f) => f.span),
      // A train idles before a pointing because another's shutter is open.
      ...(idle.stretch ? [interval(Math.min(span.startMs, idle.stretch.span.startMs), idle.stretch.span.endMs)] : []),
    ];
    return subtract([span], explained).flatMap((rest): Absence[] => {
      const lengthMs = durationMs(rest) - idle.filterMs - idle.pausedMs;
      const resumes = idle.stretch !== null && rest.startMs >= idle.stretch.span.endMs;
      if (lengthMs <= (resumes ? LATE_RESUME_MS : ABSENCE_MS)) return [];
      const untilMs = rest.endMs - idle.filterMs;
      return [
        {
          dueMs: dueBefore(rest.startMs, idle),
          untilMs,
          ...(isAwaited(train, untilMs, dithers) ? { isAwaited: true } : {}),
        },
      ];
    });
  });
}

/** Whether another train that was ready for a dither before the absence ended was still waiting then. */
function isAwaited(train: string, untilMs: number, dithers: readonly DitherCycle[]): boolean {
  const next = dithers.find((cycle) => cycle.beginMs >= untilMs);
  return Object.entries(next?.waits ?? {}).some(([id, wait]) =>
    id !== train && wait ? wait.readyMs < untilMs : false,
  );
}

/** Holds of this train only: it rests, the others do not. */
function ownHolds(
  train: string,
  lights: readonly JudgedFrame[],
  { timeline: { activities } }: AccountedNight,
): Absence[] {
  return activities
    .filter((a) => a.kind === 'hold' && a.train === train)
    .map(({ span }): Absence => {
      const cut = lights.some((f) => f.aborted === true && Math.abs(f.exposure.endMs - span.startMs) <= CUT_MS);
      return { isHold: true, dueMs: span.startMs, untilMs: span.endMs, ...(cut ? { cutMs: span.startMs } : {}) };
    });
}

/** How an interval affected one train; `null` when it continued exposing, or had not begun or was done. */
export function stopShare(
  stretch: Stretch,
  lights: readonly JudgedFrame[],
  idles: readonly Idle[],
  blocks: readonly Block[],
  graceMs: number,
): StopShare | null {
  const idle = idles.find((i) => i.stretch === stretch);
  const harmed = lights.some(
    (f) =>
      f.exposure.startMs < stretch.span.endMs &&
      f.exposure.endMs > stretch.span.startMs &&
      movedUnder(f.exposure, stretch) > graceMs,
  );
  if (!idle || harmed) return null;
  const { before, after } = idle;
  const holdMs = stretch.hold?.startMs;
  const resumeMs =
    after.exposure.startMs -
    stretch.span.endMs -
    idle.filterMs -
    sum(idle.focus.filter((f) => f.span.startMs >= stretch.span.endMs - 1).map((f) => durationMs(f.span)));
  return {
    dueMs: dueBefore(stretch.span.startMs, idle),
    resumeMs: resumeMs > LATE_RESUME_MS ? 0 : resumeMs,
    cuts: holdMs === undefined || before.exposure.endMs <= holdMs + CUT_MS,
    ...(before.target === after.target ? {} : { anchor: placeInPlan(lights.indexOf(after), blocks) }),
  };
}
