/** The companion's drift relative to the guided train: tubes, rings and focusers that flex by different amounts. */
import type { Aim, DriftRate, DriftStretch, Flexure, PixelPoint, Similarity } from '../../model/index.js';
import { median } from '../../model/index.js';
import { transformDifference } from '../registration/index.js';
import { middleMs } from './aim.js';
import { hoursOf, sidesOf } from './drift.js';

/** A trail that a stack does not show (common practice, no source), px. */
export const HARMLESS_TRAIL_PX = 0.5;
/** Exposures that overlap by less of the shorter one are not compared. */
const LEAST_SHARED_TIME = 0.3;
/** A rate this many times its uncertainty is measured. */
const MEASURED_AT = 2;

/**
 * The companion's drift relative to the pilot. Each companion frame is compared with the pilot frames exposed at the
 * same time, mapped into the companion's pixels, so that dithers and guiding, which move both, cancel. Both sides of
 * the pier have separate offsets and rates. `null` with too few simultaneous frames.
 *
 * @param toCompanion from the pilot's reference frame to the companion's
 * @param scaleArcsec arcsec per px of the companion
 */
export function flexureOf(
  pilot: readonly Aim[],
  companion: readonly Aim[],
  toCompanion: Similarity,
  scaleArcsec: number,
): Flexure | null {
  const course = companion.flatMap((frame) => {
    const guided = aimMeanwhile(pilot, frame);
    if (!guided) return [];
    const expected = transformDifference(toCompanion, guided);
    const { flipped } = frame;
    return [{ midMs: middleMs(frame), flipped, x: frame.x - expected.x, y: frame.y - expected.y }];
  });
  const points = course.map((p) => ({ ...p, run: 0 }));
  const sides = sidesOf(points, scaleArcsec);
  const overall = meanOver(sides);
  if (!overall) return null;
  const hours = points.length > 0 ? hoursOf(points, scaleArcsec) : [];
  const subSeconds = median(companion.map((c) => c.seconds));
  // Hours with a rate within the noise would make the worst hour random.
  const steady = hours.filter((h) => h.pxPerHour >= MEASURED_AT * h.uncertaintyPxPerHour);
  const isMeasured = overall.pxPerHour >= MEASURED_AT * overall.uncertaintyPxPerHour;
  const safeRate = isMeasured ? overall.pxPerHour : overall.pxPerHour + MEASURED_AT * overall.uncertaintyPxPerHour;
  return {
    overall,
    sides,
    hours,
    trailPx: (overall.pxPerHour * subSeconds) / 3600,
    subSeconds,
    longestSubSeconds: longestSub(safeRate),
    longestSubWorstHourSeconds: longestSub(Math.max(safeRate, ...steady.map((h) => h.pxPerHour))),
    isMeasured,
    course,
  };
}

function longestSub(pxPerHour: number): number | null {
  return pxPerHour > 0 ? (3600 * HARMLESS_TRAIL_PX) / pxPerHour : null;
}

/** The pilot's mean pointing while the companion's shutter was open, weighted by overlap. */
function aimMeanwhile(pilot: readonly Aim[], frame: Aim): PixelPoint | null {
  const end = frame.startMs + 1000 * frame.seconds;
  let sum = 0;
  let x = 0;
  let y = 0;
  for (const other of pilot) {
    const otherEnd = other.startMs + 1000 * other.seconds;
    const shared = Math.min(end, otherEnd) - Math.max(frame.startMs, other.startMs);
    if (shared < LEAST_SHARED_TIME * 1000 * Math.min(frame.seconds, other.seconds) || shared <= 0) continue;
    sum += shared;
    x += shared * other.x;
    y += shared * other.y;
  }
  return sum > 0 ? { x: x / sum, y: y / sum } : null;
}

/** Both sides of the pier, weighted by time. The direction is that of the longer one: on the other side it rotates. */
function meanOver(sides: readonly DriftStretch[]): DriftRate | null {
  const longest = [...sides].sort((a, b) => b.endMs - b.startMs - (a.endMs - a.startMs))[0];
  if (!longest) return null;
  const total = sides.reduce((sum, s) => sum + s.endMs - s.startMs, 0);
  const mean = (of: (s: DriftStretch) => number) =>
    sides.reduce((sum, s) => sum + of(s) * (s.endMs - s.startMs), 0) / total;
  const error = (of: (s: DriftStretch) => number) =>
    Math.sqrt(sides.reduce((sum, s) => sum + (of(s) * (s.endMs - s.startMs)) ** 2, 0)) / total;
  const pxPerHour = mean((s) => s.pxPerHour);
  const share = longest.pxPerHour > 0 ? pxPerHour / longest.pxPerHour : 0;
  return {
    xPxPerHour: longest.xPxPerHour * share,
    yPxPerHour: longest.yPxPerHour * share,
    pxPerHour,
    uncertaintyPxPerHour: error((s) => s.uncertaintyPxPerHour),
    arcsecPerHour: mean((s) => s.arcsecPerHour),
    uncertaintyArcsecPerHour: error((s) => s.uncertaintyArcsecPerHour),
    frames: sides.reduce((sum, s) => sum + s.frames, 0),
  };
}
