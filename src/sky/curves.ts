import type { Interval, Site, SkyPosition, Target, TargetCurve } from '../model/index.js';
import { observerOf } from './position.js';
import type { SkyObserver } from './position.js';
import { stretchesFromZero } from './stretches.js';

const CURVE_STEP_MS = 5 * 60_000;
const MAX_POINTS = 5000;
/** The sky rotates by a quarter of a degree in this time: narrower gaps in trees may be missed. */
const UP_STEP_MS = 60_000;

/**
 * A target's path over a night, and when within the window it is above its limit.
 *
 * `points` are samples from the span's start on, every `stepMs`, to its end at most. `up` has its edges to the
 * millisecond of the model, that is to about a second in the sky, refraction included; a notch in the horizon crossed
 * in less than a minute may be missed.
 *
 * @param where the site, or an observer of it to share the Moon among several targets
 * @param target J2000 / ICRS degrees
 * @param span what to draw: the night
 * @param window what to count: the dark window
 * @param stepMs distance of the points, whole milliseconds; five minutes by default
 * @throws RangeError when the step is not a whole number of at least 1
 */
export function targetCurve(
  where: Site | SkyObserver,
  target: Target,
  span: Interval,
  window: Interval,
  stepMs = CURVE_STEP_MS,
): TargetCurve {
  if (!Number.isSafeInteger(stepMs) || stepMs < 1)
    throw new RangeError(`a curve's step must be whole milliseconds, got ${stepMs}`);
  const observer = observerOf(where);
  const points: SkyPosition[] = [];
  // Maximum number of points of a curve, however long a span an old record states.
  const step = Math.max(stepMs, Math.ceil((span.endMs - span.startMs) / MAX_POINTS));
  for (let atMs = span.startMs; atMs <= span.endMs; atMs += step) points.push(observer.position(target, atMs));
  const up = stretchesFromZero((atMs) => observer.clearance(target, atMs), window, UP_STEP_MS);
  return { target: target.name, points, up };
}
