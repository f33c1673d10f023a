/** From a night to its course: the plan, the measured durations, the stops at their times, and its rules. */
import {
  duration,
  ownValue,
  type DitherCycle,
  type AccountedNight,
  type NotReplayed,
  type ReplayRule,
  lightsOf,
} from '../../model/index.js';
import type { Course, Stop, StopShare, TrainCourse } from '../course.js';
import { conditionsOf } from './conditions.js';
import { durationsOf } from './durations.js';
import { habitsOf, type Habits } from './habits.js';
import { cycleEndMs, idlesOf } from './idles.js';
import type { Known } from './known.js';
import type { ReplayedNight } from './lengths.js';
import { lengthMs, stretchesOf, type Stretch } from './stretches.js';
import { stopShare, trainCourse } from './trains.js';

/** Move and settling of a dither without any measurement, ms. Common practice, no source. */
const ASSUMED_CYCLE_MS = 16_000;

/** Computers that take longer than this to coordinate a dither were delayed by something else, ms. */
const LONGEST_AGREEING_MS = 10_000;

/** The course of a night and what is known of its rules. */
export interface Calibrated {
  readonly course: Course;
  readonly rules: readonly ReplayRule[];
}

/** Calibrates a replay on a night's own frames and log; a night of fewer than two lights a train cannot be replayed. */
export function calibrate(night: ReplayedNight): Calibrated | NotReplayed {
  const stretches = stretchesOf(night);
  const known = night.gathered.trains.flatMap((train): Known[] => {
    const lights = lightsOf(night, train.id);
    if (lights.length < 2) return [];
    const idles = idlesOf(train.id, lights, night, stretches);
    return [{ lights, idles, course: trainCourse(train, lights, idles, night) }];
  });
  if (known.length === 0) return { missing: 'a train with at least two lights' };
  const { motionGraceSeconds } = night.gathered.rules;
  const stops = stretches.flatMap((stretch) => {
    const stop = stopOf(stretch, known, motionGraceSeconds * 1000);
    return stop ? [{ stretch, stop }] : [];
  });
  const run = stops.map((s) => s.stretch);
  const habits = habitsOf(known, night, run);
  const cycles = durationsOf(night.accounts.dithers.map(cycleMs), ASSUMED_CYCLE_MS);
  const course: Course = {
    trains: known.map((k) => (hidesDithers(k.course, night) ? withoutShortAbsences(k.course) : k.course)),
    stops: stops.map((s) => s.stop),
    cycles,
    longestMs: Math.max(...known.flatMap((k) => k.course.blocks.map((b) => b.exposureMs))),
    stopsResetCount: habits.stopsResetCount,
    restsInPauses: habits.restsInPauses,
    awaitedToStart: habits.awaitedToStart,
    unseenPatience: habits.unseenPatience,
    otherPatienceMs: habits.otherPatienceMs,
    conditions: conditionsOf(night, run),
    rules: habits.rules,
    assumed: [
      ...(cycles.certainty === 'assumed'
        ? [`a dither takes ${ASSUMED_CYCLE_MS / 1000} s with its settling: none was seen on this night`]
        : []),
      ...known
        .filter((k) => k.course.turnarounds.certainty === 'assumed')
        .map(
          (k) =>
            `the readout of ${k.course.id} takes ${k.course.turnarounds.typicalMs / 1000} s: none was seen on ` +
            'this night',
        ),
      ...Object.entries(habits.otherPatienceMs).map(
        ([id, ms]) =>
          `${id} is taken to wait after ${ownValue(habits.rules.ownCount, id)} frames of its own, and that it begins ` +
          `none within ${duration(ms)} of a dither fits as well: gains of other rhythms are the mean of both`,
      ),
    ],
  };
  const rules = statedRules(course, habits);
  // Without a log every duration is inferred from gaps.
  return {
    course,
    rules: night.timeline.headersOnly
      ? rules.map((r) => (r.certainty === 'measured' ? { ...r, certainty: 'inferred' as const } : r))
      : rules,
  };
}

/** Absences up to this long may be dithers not detected in the gaps, ms. */
const HIDDEN_DITHER_MS = 600_000;
/** From this many absences per dither on, some of them are dithers. */
const HIDDEN_SHARE = 0.25;

/** Whether dithers, inferred from gaps, were partly taken for absences. */
function hidesDithers(
  { absences }: TrainCourse,
  { timeline: { headersOnly }, accounts: { dithers } }: AccountedNight,
): boolean {
  return headersOnly && dithers.length > 0 && absences.length > HIDDEN_SHARE * dithers.length;
}

/** The replay itself produces the waits that these absences were. */
function withoutShortAbsences(course: TrainCourse): TrainCourse {
  return { ...course, absences: course.absences.filter((a) => a.untilMs - a.dueMs > HIDDEN_DITHER_MS) };
}

/** From the last train's readiness until the mount has settled, including the coordination of the computers. */
function cycleMs(cycle: DitherCycle): number {
  const ready = Object.values(cycle.waits).flatMap((w) => (w ? [w.readyMs] : []));
  const lastMs = Math.max(...ready, cycle.beginMs - LONGEST_AGREEING_MS);
  return Math.max(0, cycleEndMs(cycle) - lastMs);
}

function stopOf(stretch: Stretch, known: readonly Known[], graceMs: number): Stop | null {
  const shares = known.flatMap(({ course, lights, idles }): [string, StopShare][] => {
    const share = stopShare(stretch, lights, idles, course.blocks, graceMs);
    return share ? [[course.id, share]] : [];
  });
  if (shares.length === 0) return null;
  const { span, hold, motion, guidingOff } = stretch;
  const fromBegin = (spans: Stretch['motion']) =>
    spans.map((s) => ({ startMs: s.startMs - span.startMs, endMs: s.endMs - span.startMs }));
  const atItsTime = hold !== null && hold.startMs - span.startMs <= 60_000;
  return {
    beginMs: span.startMs,
    atItsTime,
    notBeforeMs: hold && !atItsTime ? span.endMs : null,
    durationMs: lengthMs(stretch),
    motion: fromBegin(motion),
    guidingOff: fromBegin(guidingOff),
    trains: Object.fromEntries(shares),
  };
}

/** The rules as the report states them. */
function statedRules({ rules, trains, cycles, restsInPauses }: Course, { countCertainty }: Habits): ReplayRule[] {
  const seconds = (ms: number): string => `${Number((ms / 1000).toFixed(1))} s`;
  const followers = trains.filter((t) => t.id !== rules.lead);
  return [
    rules.ditherEvery === null
      ? { name: 'dither', value: 'none', certainty: 'measured' }
      : {
          name: 'dither',
          value:
            `every ${rules.ditherEvery === 1 ? 'frame' : `${rules.ditherEvery} frames`} of ${rules.lead}, ` +
            `${seconds(cycles.typicalMs)} with settling`,
          certainty: countCertainty,
        },
    ...(rules.ditherEvery === null
      ? []
      : followers.map((t): ReplayRule => {
          const patience = ownValue(rules.patienceMs, t.id) ?? 0;
          const count = ownValue(rules.ownCount, t.id);
          if (count !== undefined)
            return {
              name: t.id,
              value: `waits after ${count === 1 ? 'each frame' : `${count} frames`} of its own, and is waited for`,
              certainty: 'inferred',
            };
          if (!rules.awaited.includes(t.id))
            return {
              name: t.id,
              value: 'is not waited for: the mount dithers during its exposures',
              certainty: 'inferred',
            };
          return {
            name: t.id,
            value:
              patience === 0
                ? 'is waited for, and begins another exposure whenever it is free'
                : `is waited for, and begins no exposure within ${seconds(patience)} of a dither`,
            certainty: 'inferred',
          };
        })),
    ...trains.map(
      (t): ReplayRule => ({
        name: t.id,
        value: `${seconds(t.turnarounds.typicalMs)} from one exposure to the next`,
        certainty: t.turnarounds.certainty,
      }),
    ),
    ...restsInPauses.map(
      (id): ReplayRule => ({
        name: id,
        value: 'is idle while another’s refocus has paused the guiding',
        certainty: 'inferred',
      }),
    ),
  ];
}
