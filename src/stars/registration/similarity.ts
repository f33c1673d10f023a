/** Similarities of the plane: application, inverse, composition and fit. */
import type { FrameShift, PixelPoint, SensorSize, Similarity } from '../../model/index.js';

const RADIANS = Math.PI / 180;

export const IDENTITY: Similarity = { x: 0, y: 0, rotation: 0, scale: 1, mirrored: false };

/** A similarity as a matrix: x′ = a·x + b·y + x0, y′ = c·x + d·y + y0. */
export interface Matrix {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly x0: number;
  readonly y0: number;
}

export function matrixOf({ x, y, rotation, scale, mirrored }: Similarity): Matrix {
  const cos = scale * Math.cos(rotation * RADIANS);
  const sin = scale * Math.sin(rotation * RADIANS);
  return mirrored
    ? { a: cos, b: sin, c: sin, d: -cos, x0: x, y0: y }
    : { a: cos, b: -sin, c: sin, d: cos, x0: x, y0: y };
}

/** The image of a point. */
export function transform(similarity: Similarity, point: PixelPoint): PixelPoint {
  const m = matrixOf(similarity);
  return { x: m.a * point.x + m.b * point.y + m.x0, y: m.c * point.x + m.d * point.y + m.y0 };
}

/** The image of a difference of two points: the same without the shift. */
export function transformDifference(similarity: Similarity, difference: PixelPoint): PixelPoint {
  return transform({ ...similarity, x: 0, y: 0 }, difference);
}

/** The inverse similarity. */
export function inverse(similarity: Similarity): Similarity {
  const { rotation, scale, mirrored } = similarity;
  // (R·F)⁻¹ = F·R(−θ), and with a mirror that is R(θ)·F.
  const linear = { x: 0, y: 0, rotation: wrapDegrees(mirrored ? rotation : -rotation), scale: 1 / scale, mirrored };
  const back = transform(linear, similarity);
  return { ...linear, x: -back.x, y: -back.y };
}

/** First `first`, then `second`. */
export function compose(second: Similarity, first: Similarity): Similarity {
  const shift = transform(second, first);
  return {
    ...shift,
    rotation: wrapDegrees(second.rotation + (second.mirrored ? -first.rotation : first.rotation)),
    scale: second.scale * first.scale,
    mirrored: second.mirrored !== first.mirrored,
  };
}

/** The same direction, above −180° and up to 180°. */
export function wrapDegrees(degrees: number): number {
  const turned = degrees % 360;
  return turned > 180 ? turned - 360 : turned <= -180 ? turned + 360 : turned;
}

/** Middle of a sensor whose first pixel's centre is (1, 1). */
export function centreOf(size: SensorSize): PixelPoint {
  return { x: (size.width + 1) / 2, y: (size.height + 1) / 2 };
}

/**
 * The rigid shift that equals a similarity at the centre of the field. Scale changes by parts in ten thousand with
 * focus; at the centre that moves nothing.
 */
export function shiftOf(similarity: Similarity, matched: number, size: SensorSize): FrameShift {
  const centre = centreOf(size);
  const there = transform(similarity, centre);
  const rigid = transform({ ...IDENTITY, rotation: similarity.rotation }, centre);
  return { x: there.x - rigid.x, y: there.y - rigid.y, rotation: similarity.rotation, matched };
}

/** A frame's shift as a similarity of scale 1. */
export function similarityOf(shift: FrameShift): Similarity {
  return { x: shift.x, y: shift.y, rotation: shift.rotation, scale: 1, mirrored: false };
}

/** Pairs of points with weights: the first `count` entries of each array. */
export interface WeightedPairs {
  readonly count: number;
  readonly fromX: Float64Array;
  readonly fromY: Float64Array;
  readonly toX: Float64Array;
  readonly toY: Float64Array;
  readonly weight: Float64Array;
}

/**
 * The least-squares similarity through weighted pairs of points: with points as complex numbers, q = α·p + β, or α·p̄ +
 * β when mirrored. `null` if the points do not spread or carry no weight.
 */
export function fitSimilarity(pairs: WeightedPairs, mirrored: boolean): Similarity | null {
  const { count, fromX, fromY, toX, toY, weight } = pairs;
  let sum = 0;
  let px = 0;
  let py = 0;
  let qx = 0;
  let qy = 0;
  for (let i = 0; i < count; i++) {
    const w = weight[i]!;
    sum += w;
    px += w * fromX[i]!;
    py += w * fromY[i]!;
    qx += w * toX[i]!;
    qy += w * toY[i]!;
  }
  if (!(sum > 0)) return null;
  px /= sum;
  py /= sum;
  qx /= sum;
  qy /= sum;
  const flip = mirrored ? -1 : 1;
  let spread = 0;
  let along = 0;
  let across = 0;
  for (let i = 0; i < count; i++) {
    const w = weight[i]!;
    const x = fromX[i]! - px;
    const y = flip * (fromY[i]! - py);
    const u = toX[i]! - qx;
    const v = toY[i]! - qy;
    spread += w * (x * x + y * y);
    along += w * (x * u + y * v);
    across += w * (x * v - y * u);
  }
  const scale = Math.hypot(along, across) / spread;
  if (!(scale > 0) || !Number.isFinite(scale)) return null;
  const linear = { x: 0, y: 0, rotation: Math.atan2(across, along) / RADIANS, scale, mirrored };
  const moved = transform(linear, { x: px, y: py });
  return { ...linear, x: qx - moved.x, y: qy - moved.y };
}
