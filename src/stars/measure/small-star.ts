/**
 * Stars so small that pixels are no samples of their profile: an elliptical profile A·(1 + q·t)^(−1/q), t = a·dx² +
 * 2b·dx·dy + c·dy², averaged over each pixel, is fitted with its position (Levenberg–Marquardt).
 */
import { itemAt } from '../../model/collections.js';
import { PIXEL_VARIANCE } from './aperture.js';
import { solve } from './linear.js';
import { axesOf, type Field, type Shape } from './moments.js';

/** Recorded widths below this are fitted this way, px. */
export const SMALL_FWHM = 2.3;
const REACH = 3;
const ITERATIONS = 20;
const PARAMETERS = 7;
/** Three by three Gauss–Legendre points of a pixel, and their weights. */
const NODE = Math.sqrt(0.15);
const NODES_X = Float64Array.of(-NODE, 0, NODE, -NODE, 0, NODE, -NODE, 0, NODE);
const NODES_Y = Float64Array.of(-NODE, -NODE, -NODE, 0, 0, 0, NODE, NODE, NODE);
const WEIGHTS = Float64Array.of(25, 40, 25, 40, 64, 40, 25, 40, 25).map((weight) => weight / 324);
/** No optics produce a star narrower than this, px FWHM; adjacent hot pixels do. */
const NARROWEST = 0.9;
/** Fraction of the peak: a worse fit is not a star. */
const MISFIT_MAX = 0.06;
const HALF_PER_VARIANCE = 8 * Math.LN2;

export interface SmallStar {
  /** Position and moments as recorded: including the pixel's variance. */
  readonly shape: Shape;
  /** As recorded, px. */
  readonly fwhm: number;
  /** Without the pixel's contribution, px. */
  readonly ownFwhm: number;
}

/** Fits one star; `undefined` where no star-like profile fits. */
export function fitSmallStar(
  field: Field,
  x0: number,
  y0: number,
  level: number,
  noise: number,
): SmallStar | undefined {
  const column = Math.round(x0);
  const row = Math.round(y0);
  if (column < REACH || row < REACH || column >= field.width - REACH || row >= field.height - REACH) return undefined;
  const fit = new Fit(field, column, row, level);
  const settled = fit.run();
  if (settled === undefined) return undefined;
  const { x, y, peak, a, b, c, q, misfit, pixels } = settled;
  const determinant = a * c - b * b;
  if (!(determinant > 0 && peak > 0)) return undefined;
  const half = Math.abs(q) < 1e-6 ? Math.LN2 : (2 ** q - 1) / q;
  // Variances of the Gaussian with the same half maximum.
  const factor = (4 * half) / HALF_PER_VARIANCE / determinant;
  const axes = axesOf(c * factor, -b * factor, a * factor);
  if (!(Math.sqrt(axes.short * HALF_PER_VARIANCE) > NARROWEST)) return undefined;
  if (Math.sqrt(misfit / pixels) > Math.max(3 * noise, MISFIT_MAX * peak)) return undefined;
  const xx = c * factor + PIXEL_VARIANCE;
  const yy = a * factor + PIXEL_VARIANCE;
  const xy = -b * factor;
  const own = Math.sqrt(axes.long * axes.short);
  // What a pixel adds to the half maximum of such profiles (C: Gaussian to Moffat 2.5, FWHM 1.5–2.3 px, to 0.5 %).
  return {
    shape: { x: column + x, y: row + y, xx, xy, yy, sum: 2 * Math.PI * own * peak },
    fwhm: Math.sqrt((own + PIXEL_VARIANCE * (1.05 + 1.64 * Math.max(q, 0))) * HALF_PER_VARIANCE),
    ownFwhm: Math.sqrt(own * HALF_PER_VARIANCE),
  };
}

interface Settled {
  readonly x: number;
  readonly y: number;
  readonly peak: number;
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly q: number;
  readonly misfit: number;
  readonly pixels: number;
}

class Fit {
  private readonly values: { readonly dx: number; readonly dy: number; readonly value: number }[] = [];
  private readonly slopes = new Float64Array(PARAMETERS);

  constructor({ samples, width, parity }: Field, column: number, row: number, level: number) {
    for (let dy = -REACH; dy <= REACH; dy++)
      for (let dx = -REACH; dx <= REACH; dx++) {
        if (parity !== undefined && ((column + dx + row + dy) & 1) !== parity) continue;
        const value = (samples[(row + dy) * width + column + dx] as number) - level;
        if (!Number.isNaN(value)) this.values.push({ dx, dy, value });
      }
  }

  run(): Settled | undefined {
    const peak = Math.max(...this.values.map(({ value }) => value));
    // x, y, peak, a, b, c, q
    let now: number[] = [0, 0, 1.3 * peak, 0.8, 0, 0.8, 0.1];
    let misfit = this.misfit(now);
    let damping = 1e-2;
    for (let iteration = 0; iteration < ITERATIONS && damping < 1e8; iteration++) {
      const step = this.step(now, damping);
      if (step === undefined) return undefined;
      const next = now.map((value, at) => value + itemAt(step, at));
      next[6] = Math.min(Math.max(itemAt(next, 6), -0.2), 0.6);
      const after = isSensible(next) ? this.misfit(next) : Infinity;
      if (after >= misfit) {
        damping *= 10;
        continue;
      }
      const gain = 1 - after / misfit;
      now = next;
      misfit = after;
      damping /= 10;
      if (gain < 1e-5) break;
    }
    const [x = 0, y = 0, height = 0, a = 0, b = 0, c = 0, q = 0] = now;
    return { x, y, peak: height, a, b, c, q, misfit, pixels: this.values.length };
  }

  private misfit(parameters: readonly number[]): number {
    let sum = 0;
    for (const { dx, dy, value } of this.values) sum += (value - this.model(parameters, dx, dy)) ** 2;
    return sum;
  }

  private step(parameters: readonly number[], damping: number): Float64Array | undefined {
    const matrix = new Float64Array(PARAMETERS * PARAMETERS);
    const right = new Float64Array(PARAMETERS);
    for (const { dx, dy, value } of this.values) {
      const residual = value - this.model(parameters, dx, dy);
      for (let i = 0; i < PARAMETERS; i++) {
        const slope = this.slopes[i] as number;
        right[i] = (right[i] as number) + slope * residual;
        for (let j = 0; j < PARAMETERS; j++)
          matrix[i * PARAMETERS + j] = (matrix[i * PARAMETERS + j] as number) + slope * (this.slopes[j] as number);
      }
    }
    for (let i = 0; i < PARAMETERS; i++) {
      const diagonal = i * PARAMETERS + i;
      matrix[diagonal] = (matrix[diagonal] as number) * (1 + damping) + 1e-12;
    }
    return solve(matrix, right);
  }

  /** The profile's mean over a pixel; its derivatives with respect to the parameters are left in `slopes`. */
  private model(parameters: readonly number[], dx: number, dy: number): number {
    const [x = 0, y = 0, peak = 0, a = 0, b = 0, c = 0, q = 0] = parameters;
    const { slopes } = this;
    let sum = 0,
      byX = 0,
      byY = 0,
      byPeak = 0,
      byA = 0,
      byB = 0,
      byC = 0,
      byQ = 0;
    for (let node = 0; node < WEIGHTS.length; node++) {
      const u = dx + (NODES_X[node] as number) - x;
      const v = dy + (NODES_Y[node] as number) - y;
      const t = a * u * u + 2 * b * u * v + c * v * v;
      const base = 1 + q * t;
      if (base <= 1e-6) continue;
      const log = Math.abs(q) < 1e-5 ? t : Math.log(base) / q;
      const light = (WEIGHTS[node] as number) * Math.exp(-log);
      const byT = (-peak * light) / base;
      sum += peak * light;
      byX -= byT * 2 * (a * u + b * v);
      byY -= byT * 2 * (b * u + c * v);
      byPeak += light;
      byA += byT * u * u;
      byB += byT * 2 * u * v;
      byC += byT * v * v;
      byQ += peak * light * (Math.abs(q) < 1e-3 ? (t * t) / 2 : log / q - t / (q * base));
    }
    slopes[0] = byX;
    slopes[1] = byY;
    slopes[2] = byPeak;
    slopes[3] = byA;
    slopes[4] = byB;
    slopes[5] = byC;
    slopes[6] = byQ;
    return sum;
  }
}

function isSensible([x = 0, y = 0, peak = 0, a = 0, b = 0, c = 0]: readonly number[]): boolean {
  return Math.abs(x) < 2 && Math.abs(y) < 2 && peak > 0 && a > 0 && c > 0 && a < 40 && c < 40 && a * c > b * b;
}
