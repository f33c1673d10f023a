/**
 * Shapes by adaptive moments: second moments under the Gaussian weight that has the star's own size and shape
 * (Bernstein & Jarvis 2002, AJ 123, 583; Hirata & Seljak 2003, MNRAS 343, 459).
 */
import type { Samples } from '../pixels/bands.js';

/** Pixels around a star: rows of `width` samples, and which of them count. */
export interface Field {
  readonly samples: Samples;
  readonly width: number;
  readonly height: number;
  /** Only pixels with (x + y) of this parity count. */
  readonly parity: 0 | 1 | undefined;
}

/** A Gaussian's position and second moments, px and px². */
export interface Shape {
  readonly x: number;
  readonly y: number;
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
  /** The star's sum under its own Gaussian weight, doubled: a Gaussian's whole flux. */
  readonly sum: number;
}

const ITERATIONS = 14;
const REACH = 3.5;
/** Convergence limits: fraction of the variance, and px for a shift. */
const PRECISION = 2e-4;
const SHIFT_PRECISION = 0.002;
const LARGEST_VARIANCE = 400;
/** Below this, px², single pixels dominate: a small star, adjacent hot pixels, a particle track. */
const SHARPEST_VARIANCE = 0.16;
/** The product of xx with its inverse's: above this the weight in a corner may be below all numbers. */
const THIN = 16;

/**
 * Iterates from an initial guess. `undefined` if nothing star-like converges, or the window leaves the field; `sharp`
 * if the width falls below what moments over pixels can measure.
 *
 * @param level background under the star, in samples
 * @param variance initial guess, px²
 */
export function adaptiveShape(
  field: Field,
  x0: number,
  y0: number,
  level: number,
  variance: number,
): Shape | 'sharp' | undefined {
  const { samples, width, height, parity } = field;
  let x = x0;
  let y = y0;
  let xx = variance;
  let xy = 0;
  let yy = variance;
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    const determinant = xx * yy - xy * xy;
    const a = yy / determinant;
    const b = -xy / determinant;
    const c = xx / determinant;
    const reachX = Math.ceil(REACH * Math.sqrt(xx));
    const reachY = Math.ceil(REACH * Math.sqrt(yy));
    const centreX = Math.round(x);
    const centreY = Math.round(y);
    const left = centreX - reachX;
    const right = centreX + reachX;
    if (left < 0 || right >= width || centreY - reachY < 0 || centreY + reachY >= height) return undefined;

    let sum = 0;
    let sumX = 0;
    let sumY = 0;
    let sumXX = 0;
    let sumXY = 0;
    let sumYY = 0;
    // Along a row the weight's exponent is quadratic, so the weight follows from two multiplications per pixel; so it
    // does along the window's left edge, unless a long thin star leaves no weight in its corner.
    const curve = Math.exp(-a);
    const first = left - x;
    const above = centreY - reachY - y;
    const isThin = a * xx > THIN;
    let edge = Math.exp(-0.5 * (a * first * first + 2 * b * first * above + c * above * above));
    let edgeRatio = Math.exp(-0.5 * (2 * b * first + c * (2 * above + 1)));
    const edgeCurve = Math.exp(-c);
    let slope = Math.exp(-0.5 * (a * (2 * first + 1) + 2 * b * above));
    const slopeRatio = Math.exp(-b);
    for (let row = centreY - reachY; row <= centreY + reachY; row++) {
      const dy = row - y;
      let dx = first;
      let weight = isThin ? Math.exp(-0.5 * (a * dx * dx + 2 * b * dx * dy + c * dy * dy)) : edge;
      let ratio = slope;
      edge *= edgeRatio;
      edgeRatio *= edgeCurve;
      slope *= slopeRatio;
      let lineSum = 0;
      let lineX = 0;
      let lineXX = 0;
      const start = row * width;
      for (let column = left; column <= right; column++) {
        if (parity === undefined || ((column + row) & 1) === parity) {
          const value = weight * ((samples[start + column] as number) - level);
          const moment = value * dx;
          lineSum += value;
          lineX += moment;
          lineXX += moment * dx;
        }
        weight *= ratio;
        ratio *= curve;
        dx++;
      }
      sum += lineSum;
      sumX += lineX;
      sumXX += lineXX;
      sumY += lineSum * dy;
      sumXY += lineX * dy;
      sumYY += lineSum * dy * dy;
    }
    if (!(sum > 0)) return undefined;
    const shiftX = sumX / sum;
    const shiftY = sumY / sum;
    // The moments under the weight are half the star's if both are equal; a step covers half the distance.
    const stepXX = 4 * (sumXX / sum - shiftX * shiftX) - 2 * xx;
    const stepXY = 4 * (sumXY / sum - shiftX * shiftY) - 2 * xy;
    const stepYY = 4 * (sumYY / sum - shiftY * shiftY) - 2 * yy;
    const half = (xx + yy) / 2;
    if (
      Math.abs(stepXX) + Math.abs(stepXY) + Math.abs(stepYY) < PRECISION * half &&
      Math.abs(shiftX) + Math.abs(shiftY) < SHIFT_PRECISION
    )
      return { x: x + 2 * shiftX, y: y + 2 * shiftY, xx: xx + stepXX, xy: xy + stepXY, yy: yy + stepYY, sum: 2 * sum };
    x += 2 * shiftX;
    y += 2 * shiftY;
    if (Math.abs(x - x0) > 3 + Math.sqrt(xx) || Math.abs(y - y0) > 3 + Math.sqrt(yy)) return undefined;
    const keep = stepShare(xx, xy, yy, stepXX, stepXY, stepYY);
    xx += keep * stepXX;
    xy += keep * stepXY;
    yy += keep * stepYY;
    if (xx < SHARPEST_VARIANCE || yy < SHARPEST_VARIANCE || xx * yy - xy * xy < SHARPEST_VARIANCE ** 2) return 'sharp';
    if (!(xx + yy < 2 * LARGEST_VARIANCE)) return undefined;
  }
  return undefined;
}

/** The full step if it results in an ellipse of sensible size, else a part of it. */
function stepShare(xx: number, xy: number, yy: number, dxx: number, dxy: number, dyy: number): number {
  const determinant = xx * yy - xy * xy;
  for (let share = 1; share > 0.05; share /= 2) {
    const a = xx + share * dxx;
    const b = yy + share * dyy;
    const c = xy + share * dxy;
    const after = a * b - c * c;
    if (a > 0 && b > 0 && after > determinant * 0.1 && a + b < 3 * (xx + yy)) return share;
  }
  return 0.05;
}

/** Axes of an ellipse of second moments. */
export interface Axes {
  /** Variances along the long and the short axis, px². */
  readonly long: number;
  readonly short: number;
  /** Of the long axis, degrees 0–180 from +x towards +y. */
  readonly direction: number;
}

export function axesOf(xx: number, xy: number, yy: number): Axes {
  const mean = (xx + yy) / 2;
  const half = Math.sqrt(((xx - yy) / 2) ** 2 + xy * xy);
  const angle = (Math.atan2(2 * xy, xx - yy) * 90) / Math.PI;
  return { long: mean + half, short: mean - half, direction: angle < 0 ? angle + 180 : angle };
}

/**
 * Kurtosis under the star's own weight along its short axis minus that along its long axis. 0 for every elliptical
 * profile and any direction; above 0 for a trail, which is flat along its length.
 */
export function flatness({ samples, width, height, parity }: Field, shape: Shape, level: number): number {
  const { long, short, direction } = axesOf(shape.xx, shape.xy, shape.yy);
  const cos = Math.cos((direction * Math.PI) / 180);
  const sin = Math.sin((direction * Math.PI) / 180);
  const reach = Math.ceil(REACH * Math.sqrt(long));
  let sum = 0;
  let long2 = 0;
  let long4 = 0;
  let short2 = 0;
  let short4 = 0;
  const bottom = Math.min(height - 1, Math.round(shape.y) + reach);
  const right = Math.min(width - 1, Math.round(shape.x) + reach);
  for (let y = Math.max(0, Math.round(shape.y) - reach); y <= bottom; y++)
    for (let x = Math.max(0, Math.round(shape.x) - reach); x <= right; x++) {
      if (parity !== undefined && ((x + y) & 1) !== parity) continue;
      const along = ((x - shape.x) * cos + (y - shape.y) * sin) ** 2;
      const across = ((y - shape.y) * cos - (x - shape.x) * sin) ** 2;
      const exponent = along / long + across / short;
      if (exponent > REACH * REACH) continue;
      const value = Math.exp(-0.5 * exponent) * ((samples[y * width + x] as number) - level);
      sum += value;
      long2 += value * along;
      long4 += value * along * along;
      short2 += value * across;
      short4 += value * across * across;
    }
  return (sum * short4) / short2 ** 2 - (sum * long4) / long2 ** 2;
}
