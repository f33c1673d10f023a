/**
 * What became of a replayed night's exposures, by the rules the night itself was judged by.
 */
import {
  itemAt,
  isKept,
  overlapMs,
  UNNAMED,
  type DitherPlaces,
  type Interval,
  type ReplayOutcome,
  type ReplayTally,
} from '../model/index.js';
import type { Conditions, Course, GuidingSums, TrainCourse } from './course.js';
import type { Draws } from './draws.js';
import type { SimulatedExposure } from './running-train.js';
import type { Run } from './simulate.js';
import { evidenceFor, type TrainEvidence } from './evidence.js';
import { skyAt } from './sky-at.js';

const NO_EVIDENCE: TrainEvidence = { exposures: [], sigmaArcsec: null };
/** Fewer guiding samples than this say nothing of an exposure. */
const MIN_SAMPLES = 3;
/** Keeps the moves of lapses and of the sky apart from those of stops. */
const LAPSES = 1000;
const SKY = 2000;

/**
 * Judges a run. An exposure that reaches over the end of the train's night counts with the part before it, so that a
 * gain is not a matter of which rule happens to finish a frame last.
 */
export function judge(course: Course, run: Run, draws: Draws): ReplayOutcome {
  const { conditions } = course;
  const motion = sorted([...conditions.motion, ...run.motion]);
  const lapses = conditions.lapses.map((span, i) => moved(span, draws.shiftMs(course.longestMs, LAPSES + i)));
  const off = sorted([...conditions.guidingOff, ...lapses, ...run.guidingOff]);
  // Whether one more frame ends before the target sinks to its limit is luck as well.
  const skyMs = draws.shiftMs(course.longestMs, SKY);
  const trains = course.trains.map((train, i) =>
    tally(train, itemAt(run.exposures, i), itemAt(run.waitedMs, i), motion, off, conditions, skyMs),
  );
  return {
    trains: Object.fromEntries(trains.map(({ id, own }) => [id, own])),
    keptMs: trains.reduce((sum, { own }) => sum + own.keptMs, 0),
    dithers: run.dithers,
    places: trains.flatMap(({ places }) => places),
  };
}

function tally(
  train: TrainCourse,
  exposures: readonly SimulatedExposure[],
  waitedMs: number,
  motion: readonly Interval[],
  off: readonly Interval[],
  conditions: Conditions,
  skyMs: number,
): { id: string; own: ReplayTally; places: DitherPlaces[] } {
  // What befell the mount once the train was done, the guiding's stop above all, harms no part that counts.
  const counted = exposures.map((e) =>
    e.endMs > train.endMs ? { startMs: e.startMs, endMs: Math.max(e.startMs, train.endMs) } : e,
  );
  const moved = overlaps(counted, motion);
  const unguided = overlaps(counted, off);
  let keptMs = 0;
  let lostOrDoubtfulFrames = 0;
  const whole: SimulatedExposure[] = [];
  for (const [i, exposure] of exposures.entries()) {
    const kept = passes(exposure, train, itemAt(moved, i), itemAt(unguided, i), conditions, skyMs);
    const isWhole = exposure.endMs <= train.endMs;
    if (kept) keptMs += Math.max(0, Math.min(exposure.endMs, train.endMs) - exposure.startMs);
    if (!kept) lostOrDoubtfulFrames++;
    else if (isWhole) whole.push(exposure);
  }
  return {
    id: train.id,
    own: { keptMs, keptFrames: whole.length, lostOrDoubtfulFrames, waitedMs },
    places: placesOf(train.id, whole),
  };
}

function placesOf(train: string, kept: readonly SimulatedExposure[]): DitherPlaces[] {
  const groups: { readonly target: string; readonly filter: string; readonly places: Set<number> }[] = [];
  let last: (typeof groups)[number] | undefined;
  for (const { target = UNNAMED, filter = UNNAMED, place } of kept) {
    // Few groups, and exposure after exposure of one of them: a map with a key for each would take longer.
    if (last?.target !== target || last.filter !== filter) {
      last = groups.find((group) => group.target === target && group.filter === filter);
      if (!last) groups.push((last = { target, filter, places: new Set() }));
    }
    last.places.add(place);
  }
  return groups.map(({ target, filter, places }) => ({ train, target, filter, places: places.size }));
}

/** Milliseconds of each exposure under any of the spans; both are sorted by start, the exposures disjoint. */
function overlaps(exposures: readonly Interval[], spans: readonly Interval[]): Float64Array {
  const out = new Float64Array(exposures.length);
  let first = 0;
  for (const span of spans) {
    while (first < exposures.length && itemAt(exposures, first).endMs <= span.startMs) first++;
    for (let i = first; i < exposures.length; i++) {
      const exposure = exposures[i];
      if (!exposure || exposure.startMs >= span.endMs) break;
      out[i] = itemAt(out, i) + overlapMs(exposure, span);
    }
  }
  return out;
}

/** Puts an exposure to the very causes that the night's own frames were judged by. */
function passes(
  exposure: SimulatedExposure,
  train: TrainCourse,
  motionMs: number,
  unguidedMs: number,
  conditions: Conditions,
  skyMs: number,
): boolean {
  const { rules, evidence, drift } = conditions;
  const lengthMs = exposure.endMs - exposure.startMs;
  const own = evidence.get(train.id) ?? NO_EVIDENCE;
  const { stars, usual, displacement, awayMs } = evidenceFor(
    exposure,
    { lengthMs, motionMs, unguidedMs },
    own,
    drift,
    rules,
  );
  // Field by field: this is done for every exposure of every run, and a spread takes ten times as long.
  return isKept(
    {
      stars,
      usual,
      displacement,
      awayMs,
      lengthMs,
      askedMs: lengthMs,
      aborted: exposure.cut,
      motionMs,
      sureMotionMs: motionMs,
      unguidedMs,
      sureUnguidedMs: unguidedMs,
      guidingRmsArcsec: rmsArcsec(exposure, conditions.guiding),
      pixelScaleArcsec: train.pixelScaleArcsec,
      sky: skyAt(exposure.target, (exposure.startMs + exposure.endMs) / 2 + skyMs, conditions),
    },
    rules,
  );
}

function rmsArcsec({ startMs, endMs }: SimulatedExposure, guiding: GuidingSums | null): number | null {
  if (guiding === null) return null;
  const from = step(guiding, startMs);
  const to = step(guiding, endMs);
  const samples = itemAt(guiding.samples, to) - itemAt(guiding.samples, from);
  return samples < MIN_SAMPLES
    ? null
    : Math.sqrt((itemAt(guiding.squares, to) - itemAt(guiding.squares, from)) / samples);
}

function step({ startMs, stepMs, samples }: GuidingSums, atMs: number): number {
  return Math.min(samples.length - 1, Math.max(0, Math.round((atMs - startMs) / stepMs)));
}

function moved(span: Interval, ms: number): Interval {
  return { startMs: span.startMs + ms, endMs: span.endMs + ms };
}

function sorted(spans: readonly Interval[]): Interval[] {
  return [...spans].sort((a, b) => a.startMs - b.startMs);
}
