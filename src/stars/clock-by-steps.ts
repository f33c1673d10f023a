/**
 * Clocks from the stars: all trains share one mount, so that each dither moves the stars of all of them alike. The
 * clock of a companion that exposes independently of the mount follows from the frames between which its stars step.
 * Derived here.
 */
import {
  groupBy,
  median,
  partitionPoint,
  type Frame,
  type NightStars,
  type Timeline,
  type Train,
} from '../model/index.js';
import { placesOf } from './places.js';

/** How far a train's clock is ahead of the reference train's, from the steps of both. */
export interface ClockBySteps {
  readonly aheadMs: number;
  readonly uncertaintyMs: number;
  /** Moves of the mount visible in the train's stars. */
  readonly moves: number;
}

/** Two consecutive frames of a train, and how its stars moved between them. */
interface Step {
  /** Midpoints of both exposures: a frame's position is where it was for most of its time. */
  readonly fromMs: number;
  readonly toMs: number;
  /** When the shutter was closed between them. */
  readonly closedMs: number;
  readonly openedMs: number;
  /** Arcseconds in the sensor's own axes. */
  readonly x: number;
  readonly y: number;
}

/** A move of the mount in the reference train's stars. */
interface Move extends Pick<Step, 'x' | 'y'> {
  readonly atMs: number;
}

/** Range of offsets searched; beyond, offsets of clocks in another time zone. */
const REACH_MS = 2 * 3600_000 + 600_000;
const ZONES_REACH_MS = 13 * 3600_000;
const ZONE_MS = 1800_000;
const ABOUT_ZONE_MS = 120_000;
const SEARCH_STEP_MS = 2000;
/** A step smaller than this is guiding, px of the reference train. Common practice, no source. */
const LEAST_STEP_PX = 1.5;
/** The mount moved at some time in this; in a longer rest the time is unknown. */
const LONGEST_REST_MS = 120_000;
/** Fewer moves agree by chance. */
const FEWEST_MOVES = 8;
/**
 * Under the right offset the steps of both trains are equal except for guiding and rounding; under any other they are
 * not.
 */
const LEAST_CORRELATION = 0.85;
/**
 * How much better than chance an offset must explain the steps, in natural logarithms: one of ten thousand offsets
 * reaches 8 by chance. Maximum of any other offset, as a fraction of the best. Common practice, no source.
 */
const LEAST_EVIDENCE = 25;
const MOST_ELSEWHERE = 0.5;
/** The uncertainty from a frame during which the mount moved, ms. */
const LEAST_UNCERTAINTY_MS = 2000;
/** A clock known no better loses and keeps the same frames as an unknown one. */
const MOST_UNCERTAINTY_MS = 20_000;
/** A rotation of the field between two frames, degrees: a flip, or another reference. */
const SAME_ROTATION_DEG = 0.3;

/** Clocks of the trains besides the first, if the stars of both determine them. */
export function clocksBySteps({
  trains,
  timeline,
  stars,
}: {
  readonly trains: readonly Train[];
  readonly timeline: Pick<Timeline, 'frames' | 'activities'>;
  readonly stars: Pick<NightStars, 'frames'>;
}): Map<string, ClockBySteps> {
  const lights = groupBy(
    timeline.frames.filter(({ kind }) => kind === 'light'),
    ({ train }) => train,
  );
  const stepsOf = (train: Train): Step[] => steps(lights.get(train.id) ?? [], train, stars);
  const [pilot, ...others] = trains;
  const scale = pilot?.pixelScaleArcsec;
  if (pilot === undefined || scale === undefined || others.length === 0) return new Map();
  const logged = timeline.activities
    .filter(({ kind, certainty }) => kind === 'dither-move' && certainty === 'measured')
    .map(({ span }) => (span.startMs + span.endMs) / 2);
  const pilots = stepsOf(pilot);
  const moves = movesOf(pilots, LEAST_STEP_PX * scale, logged);
  return new Map(
    others.flatMap((train): [string, ClockBySteps][] => {
      const own = stepsOf(train);
      // Without a log the dithers may be the companion's, with the pilot ignoring them.
      const turned = (): ClockBySteps | null => clockOf(movesOf(own, LEAST_STEP_PX * scale, []), pilots);
      const clock = clockOf(moves, own) ?? (logged.length === 0 ? negated(turned()) : null);
      return clock ? [[train.id, clock]] : [];
    }),
  );
}

function negated(clock: ClockBySteps | null): ClockBySteps | null {
  return clock && { ...clock, aheadMs: -clock.aheadMs };
}

function steps(frames: readonly Frame[], { pixelScaleArcsec }: Train, stars: Pick<NightStars, 'frames'>): Step[] {
  if (pixelScaleArcsec === undefined) return [];
  const places = placesOf(frames, stars);
  return places.slice(1).flatMap((after, i): Step[] => {
    const before = places[i]!;
    const turn = Math.abs(after.shift.rotation - before.shift.rotation);
    if (after.target !== before.target || Math.min(turn, 360 - turn) > SAME_ROTATION_DEG) return [];
    return [
      {
        fromMs: (before.startMs + before.endMs) / 2,
        toMs: (after.startMs + after.endMs) / 2,
        closedMs: before.endMs,
        openedMs: after.startMs,
        x: (after.shift.x - before.shift.x) * pixelScaleArcsec,
        y: (after.shift.y - before.shift.y) * pixelScaleArcsec,
      },
    ];
  });
}

/** The steps of the steering train, each at its dither in the log, else in the middle of its rest. */
function movesOf(own: readonly Step[], leastArcsec: number, logged: readonly number[]): Move[] {
  return own.flatMap(({ closedMs, openedMs, x, y }): Move[] => {
    if (Math.hypot(x, y) < leastArcsec || openedMs - closedMs > LONGEST_REST_MS) return [];
    const within = logged.filter((ms) => ms >= closedMs && ms <= openedMs);
    return [{ x, y, atMs: within.length === 1 ? within[0]! : (closedMs + openedMs) / 2 }];
  });
}

/**
 * The offset under which both trains' steps are the same vectors, rotated and mirrored like the cameras: all offsets
 * that fit as well make up the uncertainty.
 */
function clockOf(moves: readonly Move[], own: readonly Step[]): ClockBySteps | null {
  if (moves.length < FEWEST_MOVES || own.length < FEWEST_MOVES) return null;
  const offsets = searched();
  const summed = runningSquares(own);
  const fits = offsets.map((aheadMs) => fitOf(moves, own, summed, aheadMs));
  const enough = 0.5 * Math.max(...fits.map((f) => f.moves));
  const counted = fits.map((f) => (f.moves >= Math.max(FEWEST_MOVES, enough) ? f.correlation : 0));
  const best = Math.max(...counted);
  if (best < LEAST_CORRELATION) return null;
  // One move between other frames lowers the fit by more than this.
  const like = offsets.filter((_, i) => counted[i]! >= best - 0.25 / Math.max(FEWEST_MOVES, fits[i]!.moves));
  const [first, last] = [like[0]!, like.at(-1)!];
  const uncertaintyMs = Math.max(LEAST_UNCERTAINTY_MS, (last - first) / 2);
  if (uncertaintyMs > MOST_UNCERTAINTY_MS) return null;
  const cycleMs = median(own.map(({ fromMs, toMs }) => toMs - fromMs));
  const isElsewhere = (ms: number): boolean => ms < first - cycleMs || ms > last + cycleMs;
  const evidence = offsets.map((_, i) => evidenceOf(fits[i]!.moves, counted[i]!));
  const most = Math.max(...evidence);
  if (most < LEAST_EVIDENCE || offsets.some((ms, i) => isElsewhere(ms) && evidence[i]! > MOST_ELSEWHERE * most))
    return null;
  return { aheadMs: (first + last) / 2, uncertaintyMs, moves: fits[offsets.indexOf(first)]!.moves };
}

/**
 * For normally distributed steps: their number times the logarithm of what the fit leaves unexplained; no fit is
 * perfect.
 */
function evidenceOf(moves: number, correlation: number): number {
  return -moves * Math.log(Math.max(0.01, 1 - correlation ** 2));
}

/** Offsets to try, ms, in order. */
function searched(): number[] {
  const found: number[] = [];
  for (let ms = -ZONES_REACH_MS; ms <= ZONES_REACH_MS; ms += SEARCH_STEP_MS) {
    const fromZone = Math.abs(ms - Math.round(ms / ZONE_MS) * ZONE_MS);
    if (Math.abs(ms) <= REACH_MS || fromZone <= ABOUT_ZONE_MS) found.push(ms);
  }
  return found;
}

/** Cumulative sums of squared steps: of none, of one, of two… */
function runningSquares(own: readonly Step[]): readonly number[] {
  const sums = [0];
  for (const { x, y } of own) sums.push(sums.at(-1)! + x * x + y * y);
  return sums;
}

/** How similar the steps are under an offset, 0…1, and for how many moves. */
function fitOf(moves: readonly Move[], own: readonly Step[], summed: readonly number[], aheadMs: number) {
  const sums = { re: 0, im: 0, mirroredRe: 0, mirroredIm: 0, moved: 0 };
  let count = 0;
  for (const { atMs, x, y } of moves) {
    const k = partitionPoint(own, (s) => s.toMs > atMs + aheadMs);
    const step = own[k];
    if (!step || step.fromMs > atMs + aheadMs) continue;
    count++;
    sums.moved += x * x + y * y;
    sums.re += step.x * x + step.y * y;
    sums.im += step.y * x - step.x * y;
    sums.mirroredRe += step.x * x - step.y * y;
    sums.mirroredIm += step.y * x + step.x * y;
  }
  const [from, to] = [moves[0]!.atMs + aheadMs, moves.at(-1)!.atMs + aheadMs];
  const seen = summed[partitionPoint(own, (s) => s.fromMs >= to)]! - summed[partitionPoint(own, (s) => s.toMs > from)]!;
  const same = Math.max(Math.hypot(sums.re, sums.im), Math.hypot(sums.mirroredRe, sums.mirroredIm));
  const size = Math.sqrt(sums.moved * seen);
  return { moves: count, correlation: size > 0 ? same / size : 0 };
}
