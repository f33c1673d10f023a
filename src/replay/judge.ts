/** The verdicts on a replayed night's exposures, by the same rules as the night itself. */
import {
  itemAt,
  UNNAMED,
  type DitherPlaces,
  type Interval,
  type ReplayOutcome,
  type ReplayTally,
} from '../model/index.js';
import type { Conditions, Course, TrainCourse } from './course.js';
import type { Draws } from './draws.js';
import { Examination } from './examination.js';
import type { SimulatedExposure } from './running-train.js';
import type { Run } from './simulate.js';

/** Separates the moves of lapses and of the sky from those of stops. */
const LAPSES = 1000;
const SKY = 2000;

/**
 * Judges a run. An exposure that extends over the end of the train's night counts with the part before it, so that a
 * gain does not depend on which rule happens to finish a frame last.
 */
export function judge(course: Course, run: Run, draws: Draws): ReplayOutcome {
  const { conditions } = course;
  const motion = sorted([...conditions.motion, ...run.motion]);
  const lapses = conditions.lapses.map((span, i) => moved(span, draws.shiftMs(course.longestMs, LAPSES + i)));
  const off = sorted([...conditions.guidingOff, ...lapses, ...run.guidingOff]);
  // Whether one more frame ends before the target reaches its limit is luck as well.
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
  const moved = overlaps(exposures, train.endMs, motion);
  const unguided = overlaps(exposures, train.endMs, off);
  const examination = new Examination(train, conditions, skyMs);
  const places = new Places(train.id);
  let keptMs = 0;
  let keptFrames = 0;
  let lostOrDoubtfulFrames = 0;
  // By index, avoiding polymorphic list access: there are a million of them in a night of thousands of frames.
  for (let i = 0; i < exposures.length; i++) {
    const exposure = exposures[i]!;
    if (!examination.passes(exposure, moved[i]!, unguided[i]!)) {
      lostOrDoubtfulFrames++;
      continue;
    }
    keptMs += Math.max(0, Math.min(exposure.endMs, train.endMs) - exposure.startMs);
    if (exposure.endMs > train.endMs) continue;
    keptFrames++;
    places.add(exposure);
  }
  return { id: train.id, own: { keptMs, keptFrames, lostOrDoubtfulFrames, waitedMs }, places: places.counted() };
}

interface Place {
  readonly target: string;
  readonly filter: string;
  places: number;
  latest: number;
}

/** Counts the positions of a train's kept frames, by target and filter; they come in chronological order. */
class Places {
  private readonly groups: Place[] = [];
  private last: Place | undefined;

  constructor(private readonly train: string) {}

  add({ target = UNNAMED, filter = UNNAMED, place }: SimulatedExposure): void {
    // Few groups, and consecutive exposures of one of them: a map with a key for each would take longer.
    if (this.last?.target !== target || this.last.filter !== filter) {
      this.last = this.groups.find((group) => group.target === target && group.filter === filter);
      if (!this.last) this.groups.push((this.last = { target, filter, places: 0, latest: -1 }));
    }
    // The dither count only increases: a position is never revisited.
    if (this.last.latest === place) return;
    this.last.latest = place;
    this.last.places++;
  }

  counted(): DitherPlaces[] {
    return this.groups.map(({ target, filter, places }) => ({ train: this.train, target, filter, places }));
  }
}

/**
 * Milliseconds of each exposure under any of the spans; both are sorted by start, the exposures disjoint. Anything
 * after the train was done, above all the end of guiding, harms no counted part.
 */
function overlaps(exposures: readonly Interval[], doneMs: number, spans: readonly Interval[]): Float64Array {
  const out = new Float64Array(exposures.length);
  let first = 0;
  for (const span of spans) {
    while (first < exposures.length && countedEndMs(exposures[first]!, doneMs) <= span.startMs) first++;
    for (let i = first; i < exposures.length; i++) {
      const exposure = exposures[i]!;
      if (exposure.startMs >= span.endMs) break;
      const endMs = Math.min(countedEndMs(exposure, doneMs), span.endMs);
      out[i]! += Math.max(0, endMs - Math.max(exposure.startMs, span.startMs));
    }
  }
  return out;
}

function countedEndMs({ startMs, endMs }: Interval, doneMs: number): number {
  return endMs > doneMs ? Math.max(startMs, doneMs) : endMs;
}

function moved(span: Interval, ms: number): Interval {
  return { startMs: span.startMs + ms, endMs: span.endMs + ms };
}

function sorted(spans: readonly Interval[]): Interval[] {
  return [...spans].sort((a, b) => a.startMs - b.startMs);
}
