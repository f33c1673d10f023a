/** How fast a pointing drifts: by side of the pier and hour by hour. */
import type { Aim, DriftRate, DriftStretch, PixelPoint, TrainDrift } from '../../model/index.js';
import { middleMs, runsOf } from './aim.js';
import { sharedSlope } from './robust-slope.js';

const HOUR_MS = 3_600_000;
/** Fewer frames give no rate. */
const FEWEST_FRAMES = 4;
const FEWEST_IN_HOUR = 6;
/** With fewer frames in runs of two or more the drift is fitted across the dithers. */
const FEWEST_IN_RUNS = 6;

/** A position at a time, on one side of the pier; `run` joins those with one offset. */
export interface Wandering extends PixelPoint {
  readonly midMs: number;
  readonly flipped: boolean;
  readonly run: number;
}

/**
 * A train's drift between its dithers. A guided train should have none; the remainder is flexure between guider and
 * camera, or a polar axis with a guide star far away.
 *
 * @param dithersMs when the mount was dithered; empty when it was not
 * @param scaleArcsec arcsec per px of the train
 */
export function trainDrift(aims: readonly Aim[], dithersMs: readonly number[], scaleArcsec: number): TrainDrift {
  const runs = runsOf(aims, dithersMs);
  const inRuns = runs.filter((r) => r.length > 1);
  const isBetween = inRuns.reduce((sum, r) => sum + r.length, 0) >= FEWEST_IN_RUNS;
  const points = (isBetween ? inRuns : runs).flatMap((run, i) =>
    run.map((a): Wandering => ({ x: a.x, y: a.y, midMs: middleMs(a), flipped: a.flipped, run: isBetween ? i : 0 })),
  );
  return {
    by: isBetween ? 'between-dithers' : 'through-dithers',
    sides: sidesOf(points, scaleArcsec),
    hours: hoursOf(points, scaleArcsec),
  };
}

/** The rate on each side of the pier. */
export function sidesOf(points: readonly Wandering[], scaleArcsec: number): readonly DriftStretch[] {
  return [false, true].flatMap((flipped) => {
    const there = points.filter((p) => p.flipped === flipped);
    return there.length >= FEWEST_FRAMES ? stretchOf(there, flipped, scaleArcsec) : [];
  });
}

/** The rate in each hour from the first point on, by side of the pier. */
export function hoursOf(points: readonly Wandering[], scaleArcsec: number): readonly DriftStretch[] {
  const first = Math.min(...points.map((p) => p.midMs));
  const hours = new Map<string, Wandering[]>();
  for (const p of points) {
    const name = `${Math.floor((p.midMs - first) / HOUR_MS)} ${p.flipped}`;
    hours.set(name, [...(hours.get(name) ?? []), p]);
  }
  return [...hours.values()]
    .filter((hour) => hour.length >= FEWEST_IN_HOUR)
    .flatMap((hour) => stretchOf(hour, hour[0]?.flipped ?? false, scaleArcsec))
    .sort((a, b) => a.startMs - b.startMs);
}

function stretchOf(points: readonly Wandering[], flipped: boolean, scaleArcsec: number): readonly DriftStretch[] {
  const rate = rateOf(points, scaleArcsec);
  if (!rate) return [];
  const times = points.map((p) => p.midMs);
  return [{ ...rate, flipped, startMs: Math.min(...times), endMs: Math.max(...times) }];
}

function rateOf(points: readonly Wandering[], scaleArcsec: number): DriftRate | null {
  const runs = new Map<number, Wandering[]>();
  for (const p of [...points].sort((a, b) => a.midMs - b.midMs)) runs.set(p.run, [...(runs.get(p.run) ?? []), p]);
  const along = (axis: 'x' | 'y') =>
    sharedSlope([...runs.values()].map((run) => run.map((p) => ({ t: p.midMs / HOUR_MS, value: p[axis] }))));
  const x = along('x');
  const y = along('y');
  if (!x || !y) return null;
  return asRate(x.slope, y.slope, x.uncertainty, y.uncertainty, points.length, scaleArcsec);
}

function asRate(x: number, y: number, xError: number, yError: number, frames: number, scaleArcsec: number): DriftRate {
  const pxPerHour = Math.hypot(x, y);
  // Error along the direction of the drift; without a direction the larger of the two.
  const uncertainty = pxPerHour > 0 ? Math.hypot(x * xError, y * yError) / pxPerHour : Math.max(xError, yError);
  return {
    xPxPerHour: x,
    yPxPerHour: y,
    pxPerHour,
    uncertaintyPxPerHour: uncertainty,
    arcsecPerHour: pxPerHour * scaleArcsec,
    uncertaintyArcsecPerHour: uncertainty * scaleArcsec,
    frames,
  };
}
