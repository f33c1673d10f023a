/**
 * Courses made by hand, for tests in which every duration is known.
 */
import { RULES } from '../account/random-night.js';
import type { Course, Durations, ReplayRules, TrainCourse } from '../../src/replay/course.js';
import { inOrder } from '../../src/replay/draws.js';
import { judge } from '../../src/replay/judge.js';
import { simulate } from '../../src/replay/simulate.js';

export const START_MS = Date.UTC(2026, 9, 14, 19);

/** A duration that is always the same. */
export function always(ms: number): Durations {
  return { inOrder: [], pool: [ms], typicalMs: ms, certainty: 'measured' };
}

export interface TrainPlan extends Partial<Omit<TrainCourse, 'turnarounds'>> {
  readonly id: string;
  readonly exposureMs: number;
  readonly turnaroundMs?: number;
}

/** A course of trains that expose alike all night. `lengthMs` is the night's length. */
export function courseOf(
  lengthMs: number,
  plans: readonly TrainPlan[],
  rules: Partial<ReplayRules> = {},
  more: Partial<Course> & { readonly cycleMs?: number } = {},
): Course {
  const trains = plans.map(
    ({ id, exposureMs, turnaroundMs = 0, ...own }): TrainCourse => ({
      id,
      startMs: START_MS,
      endMs: START_MS + lengthMs,
      blocks: [
        {
          filter: 'Ha',
          target: 'NGC 281',
          exposureMs,
          frames: Math.max(1, Math.floor(lengthMs / (exposureMs + turnaroundMs))),
          filterMs: 0,
        },
      ],
      usualMs: exposureMs,
      turnarounds: always(turnaroundMs),
      resumes: always(0),
      focusRuns: [],
      absences: [],
      pixelScaleArcsec: null,
      darkLengthsMs: [exposureMs],
      longestSub: null,
      longerUpToMs: null,
      ...own,
    }),
  );
  const { cycleMs = 0, ...given } = more;
  return {
    trains,
    stops: [],
    cycles: always(cycleMs),
    longestMs: Math.max(...plans.map((p) => p.exposureMs)),
    stopsResetCount: true,
    restsInPauses: [],
    awaitedToStart: [],
    conditions: {
      motion: [],
      guidingOff: [],
      lapses: [],
      guiding: null,
      evidence: new Map(),
      drift: null,
      curves: new Map(),
      sunLimitDeg: null,
      rules: RULES,
    },
    rules: {
      ditherEvery: null,
      lead: plans[0]?.id ?? '',
      awaited: plans.map((p) => p.id),
      ownCount: {},
      patienceMs: {},
      exposureMs: {},
      filterExposureMs: {},
      startMs: {},
      focus: 'own',
      guiding: 'off-axis',
      ...rules,
    },
    assumed: [],
    ...given,
  };
}

/** Runs a course by its own rules, exactly, and judges it. */
export function runExactly(course: Course) {
  const run = simulate(course, course.rules, inOrder);
  return { run, outcome: judge(course, run, inOrder) };
}
