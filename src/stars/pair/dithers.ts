/** Dithers measured from the stars. */
import type { Aim, DitherPlace, DitherSpread, DitherStep, OneWay } from '../../model/index.js';
import { median, robustSpread } from '../../model/index.js';
import { runsOf } from './aim.js';
import { sharedSlope } from './robust-slope.js';
import { measuredSettling } from './settling.js';

const HOUR_MS = 3_600_000;
/** Two positions this close put the same pixels on the same sky again (common practice, no source), px. */
export const SAME_PLACE_PX = 1;
const FEWEST_PLACES = 3;
/** A trend exceeding end-to-end scatter and noise is a drift (common practice, no source). */
const WALKING_SPREADS = 3;
const WALKING_PX = 3;
/** With fewer positions a drift may be chance. */
const WALKING_PLACES = 8;
/**
 * Steps of random direction, each from the last position, lead away by chance: their sum, squared, over the sum of
 * their squares is exponential with a mean of 1 (Rayleigh 1880), and above this in one night of 400. Dithers about a
 * centre turn back, so that the cosine from step to step is below this one; they have no trend of their own.
 */
const BEYOND_CHANCE = 6;
const TURNING_BACK = -0.3;

/** A logged dither. */
export interface AskedDither {
  readonly atMs: number;
  /** Size, px of the guide camera; `null` where not stated. */
  readonly askedPx: number | null;
}

/** The measured dithers of one train and field; `null` with fewer than three positions. */
export function ditherSpread(aims: readonly Aim[], dithers: readonly AskedDither[]): DitherSpread | null {
  const runs = runsOf(
    aims,
    dithers.map((d) => d.atMs),
  );
  const places = runs.flatMap(placeOf);
  if (places.length < FEWEST_PLACES) return null;
  return {
    places,
    steps: stepsOf(places, dithers),
    scatterPx: { x: robustSpread(places.map((p) => p.x)), y: robustSpread(places.map((p) => p.y)) },
    nearestPx: places.map((p) => nearestTo(p, places)),
    repeats: repeatsOf(places),
    oneWay: oneWayOf(places),
    settling: measuredSettling(runs),
  };
}

function placeOf(run: readonly Aim[]): readonly DitherPlace[] {
  const first = run[0];
  if (!first) return [];
  const { startMs, flipped } = first;
  return [{ startMs, flipped, frames: run.length, x: median(run.map((a) => a.x)), y: median(run.map((a) => a.y)) }];
}

/**
 * Steps between positions on one side of the pier with dithers between them; with several dithers the requested size is
 * unknown.
 */
function stepsOf(places: readonly DitherPlace[], dithers: readonly AskedDither[]): readonly DitherStep[] {
  return places.flatMap((place, i) => {
    const before = places[i - 1];
    if (!before || before.flipped !== place.flipped) return [];
    const between = dithers.filter((d) => d.atMs > before.startMs && d.atMs <= place.startMs);
    const only = between.length === 1 ? between[0] : undefined;
    const x = place.x - before.x;
    const y = place.y - before.y;
    const atMs = between.at(-1)?.atMs ?? place.startMs;
    return [{ atMs, askedPx: only?.askedPx ?? null, gotPx: Math.hypot(x, y), x, y }];
  });
}

function apart(a: DitherPlace, b: DitherPlace): number {
  return a.flipped === b.flipped ? Math.hypot(a.x - b.x, a.y - b.y) : Infinity;
}

/** Infinity would propagate: a position alone on its side of the pier has no neighbour and counts as the farthest. */
function nearestTo(place: DitherPlace, places: readonly DitherPlace[]): number {
  const distances = places.filter((p) => p !== place).map((p) => apart(p, place));
  const least = Math.min(...distances);
  return Number.isFinite(least) ? least : Math.max(...places.map((p) => Math.hypot(p.x - place.x, p.y - place.y)));
}

function repeatsOf(places: readonly DitherPlace[]): DitherSpread['repeats'] {
  return places.flatMap((a, first) =>
    places.flatMap((b, second) => {
      const apartPx = second > first ? apart(a, b) : Infinity;
      return apartPx <= SAME_PLACE_PX ? [{ first, second, apartPx }] : [];
    }),
  );
}

/** How far positions go in one direction. Both sides of the pier share the trend and have separate offsets. */
export function oneWayOf(places: readonly DitherPlace[]): OneWay {
  const sides = [false, true].map((flipped) => places.filter((p) => p.flipped === flipped));
  const trend = (axis: 'x' | 'y') =>
    sharedSlope(sides.map((side) => side.map((p) => ({ t: p.startMs / HOUR_MS, value: p[axis] }))))?.slope ?? 0;
  const x = trend('x');
  const y = trend('y');
  const hours = sides.reduce((sum, s) => sum + hoursOf(s), 0);
  const around = (axis: 'x' | 'y', slope: number) =>
    robustSpread(
      sides.flatMap((side) => {
        const rest = side.map((p) => p[axis] - (slope * p.startMs) / HOUR_MS);
        const level = median(rest);
        return rest.map((v) => v - level);
      }),
    );
  const steps = sides.flatMap((side) => stepsOf(side, []));
  const turning = nextStepCosine(sides);
  const trendPx = Math.hypot(x, y) * hours;
  const aroundPx = Math.hypot(around('x', x), around('y', y)) / Math.SQRT2;
  return {
    netPx: sides.reduce((sum, side) => sum + netOf(side), 0),
    pathPx: steps.reduce((sum, s) => sum + s.gotPx, 0),
    trendPx,
    aroundPx,
    trendDeg: (Math.atan2(y, x) * (180 / Math.PI) + 360) % 360,
    nextStepCosine: turning,
    isWalking:
      places.length >= WALKING_PLACES &&
      trendPx > WALKING_PX &&
      trendPx > WALKING_SPREADS * aroundPx &&
      (turning < TURNING_BACK || isOneWay(steps)),
  };
}

/** Whether steps lead farther in one direction than steps of random direction do. */
function isOneWay(steps: readonly DitherStep[]): boolean {
  const [x, y] = [steps.reduce((sum, s) => sum + s.x, 0), steps.reduce((sum, s) => sum + s.y, 0)];
  return x * x + y * y > BEYOND_CHANCE * steps.reduce((sum, s) => sum + s.gotPx ** 2, 0);
}

function hoursOf(side: readonly DitherPlace[]): number {
  const times = side.map((p) => p.startMs);
  return side.length > 1 ? (Math.max(...times) - Math.min(...times)) / HOUR_MS : 0;
}

function netOf(side: readonly DitherPlace[]): number {
  const first = side[0];
  const last = side.at(-1);
  return first && last ? Math.hypot(last.x - first.x, last.y - first.y) : 0;
}

function nextStepCosine(sides: readonly (readonly DitherPlace[])[]): number {
  const cosines = sides.flatMap((side) => {
    const steps = stepsOf(side, []);
    return steps.flatMap((step, i) => {
      const next = steps[i + 1];
      const product = next ? step.gotPx * next.gotPx : 0;
      return next && product > 0 ? [(step.x * next.x + step.y * next.y) / product] : [];
    });
  });
  return cosines.length > 0 ? cosines.reduce((sum, c) => sum + c, 0) / cosines.length : 0;
}
