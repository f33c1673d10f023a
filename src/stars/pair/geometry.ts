/** How two trains' fields overlap. */
import type { PairGeometry, PixelPoint, SensorSize, Similarity } from '../../model/index.js';
import {
  centreOf,
  clipToSensor,
  compose,
  cornersOf,
  halfTurn,
  inverse,
  sharedField,
  transform,
} from '../registration/index.js';

/** One train's reference frame. */
export interface FieldOfTrain {
  readonly size: SensorSize;
  /** Arcsec per px. */
  readonly scaleArcsec: number;
}

/**
 * The geometry of a pair from the similarity between their reference frames (first to second). Arcsec by the first
 * train's scale, on a flat sky: at 3° from the centre that is off by 0.1 % (tan x / x).
 */
export function pairGeometry(similarity: Similarity, a: FieldOfTrain, b: { readonly size: SensorSize }): PairGeometry {
  const toA = inverse(similarity);
  const centreA = centreOf(a.size);
  const centreB = transform(toA, centreOf(b.size));
  const offsetPx = { x: centreB.x - centreA.x, y: centreB.y - centreA.y };
  const fieldOfB = cornersOf(b.size).map((p) => transform(toA, p));
  const fieldOfA = cornersOf(a.size).map((p) => transform(similarity, p));
  const byDeg = halfTurn(similarity.rotation);
  return {
    similarity,
    scaleRatio: similarity.scale,
    rotationDeg: similarity.rotation,
    mirrored: similarity.mirrored,
    offsetArcsec: Math.hypot(offsetPx.x, offsetPx.y) * a.scaleArcsec,
    offsetPx,
    overlapPercent: overlap(similarity, a.size, b.size),
    overlapPolygon: { a: clipToSensor(fieldOfB, a.size), b: clipToSensor(fieldOfA, b.size) },
    fieldOfB,
    turn: { byDeg, overlapPercent: overlap(turned(similarity, byDeg, b.size), a.size, b.size) },
    centred: { overlapPercent: overlap(centred(similarity, a.size, b.size), a.size, b.size) },
  };
}

function overlap(toB: Similarity, a: SensorSize, b: SensorSize): { readonly a: number; readonly b: number } {
  return { a: 100 * sharedField(inverse(toB), a, b), b: 100 * sharedField(toB, b, a) };
}

/** What the second camera sees once its sensor is rotated about its centre: the sky rotates the other way. */
function turned(toB: Similarity, byDeg: number, size: SensorSize): Similarity {
  const middle = centreOf(size);
  const about = { x: 0, y: 0, rotation: -byDeg, scale: 1, mirrored: false };
  return compose(moved(about, middle, middle), toB);
}

function centred(toB: Similarity, a: SensorSize, b: SensorSize): Similarity {
  return moved(toB, centreOf(a), centreOf(b));
}

/** The same similarity, shifted so that one point maps to another. */
function moved(similarity: Similarity, from: PixelPoint, to: PixelPoint): Similarity {
  const there = transform({ ...similarity, x: 0, y: 0 }, from);
  return { ...similarity, x: to.x - there.x, y: to.y - there.y };
}
