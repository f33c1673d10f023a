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
const PIXELS = (2 * REACH + 1) ** 2;
/** Where the normal equations' right side and the misfit are, after the matrix. */
const RIGHT = PARAMETERS * PARAMETERS;
const MISFIT = RIGHT + PARAMETERS;
const EQUATIONS = MISFIT + 1;
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

interface Settled {
  /** x, y, peak, a, b, c, q */
  readonly parameters: Float64Array;
  /** NaN if the fit failed. */
  readonly misfit: number;
  readonly pixels: number;
}

/** Fits one star after another with reusable working memory. Everything is in arrays of numbers of one type. */
export class SmallStarFit {
  private readonly columns = new Float64Array(PIXELS);
  private readonly rows = new Float64Array(PIXELS);
  private readonly values = new Float64Array(PIXELS);
  private pixels = 0;
  private readonly slopes = new Float64Array(PARAMETERS);
  /** The normal equations where the fit is, and where it was tried: matrix, right side, and the misfit at the end. */
  private accepted = new Float64Array(EQUATIONS);
  private tried = new Float64Array(EQUATIONS);

  /** Fits one star; `undefined` where no star-like profile fits. */
  fit(field: Field, x0: number, y0: number, level: number, noise: number): SmallStar | undefined {
    const column = Math.round(x0);
    const row = Math.round(y0);
    if (column < REACH || row < REACH || column >= field.width - REACH || row >= field.height - REACH) return undefined;
    const { parameters, misfit, pixels } = this.run(field, column, row, level);
    if (Number.isNaN(misfit)) return undefined;
    const [x = 0, y = 0, peak = 0, a = 0, b = 0, c = 0, q = 0] = parameters;
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

  private run(field: Field, column: number, row: number, level: number): Settled {
    const peak = this.gather(field, column, row, level);
    // x, y, peak, a, b, c, q
    let now = Float64Array.of(0, 0, 1.3 * peak, 0.8, 0, 0.8, 0.1);
    this.evaluate(now);
    this.accept();
    let damping = 1e-2;
    for (let iteration = 0; iteration < ITERATIONS && damping < 1e8; iteration++) {
      const step = this.step(damping);
      if (step === undefined) return { parameters: now, misfit: NaN, pixels: this.pixels };
      const next = now.map((value, at) => value + itemAt(step, at));
      next[6] = Math.min(Math.max(itemAt(next, 6), -0.2), 0.6);
      const before = itemAt(this.accepted, MISFIT);
      const isBetter = isSensible(next) && this.evaluate(next) < before;
      if (!isBetter) {
        damping *= 10;
        continue;
      }
      this.accept();
      now = next;
      damping /= 10;
      if (1 - itemAt(this.accepted, MISFIT) / before < 1e-5) break;
    }
    return { parameters: now, misfit: itemAt(this.accepted, MISFIT), pixels: this.pixels };
  }

  /** Takes the pixels about a position. @returns the largest value */
  private gather({ samples, width, parity }: Field, column: number, row: number, level: number): number {
    let peak = -Infinity;
    this.pixels = 0;
    for (let dy = -REACH; dy <= REACH; dy++)
      for (let dx = -REACH; dx <= REACH; dx++) {
        if (parity !== undefined && ((column + dx + row + dy) & 1) !== parity) continue;
        const value = (samples[(row + dy) * width + column + dx] as number) - level;
        if (Number.isNaN(value)) continue;
        this.columns[this.pixels] = dx;
        this.rows[this.pixels] = dy;
        this.values[this.pixels++] = value;
        if (value > peak) peak = value;
      }
    return peak;
  }

  private accept(): void {
    [this.accepted, this.tried] = [this.tried, this.accepted];
  }

  /** The misfit, and the normal equations there: one pass over the pixels for both. */
  private evaluate(parameters: Float64Array): number {
    const { tried, slopes } = this;
    tried.fill(0);
    let misfit = 0;
    for (let pixel = 0; pixel < this.pixels; pixel++) {
      const light = this.model(parameters, this.columns[pixel] as number, this.rows[pixel] as number);
      const residual = (this.values[pixel] as number) - light;
      misfit += residual ** 2;
      for (let i = 0; i < PARAMETERS; i++) {
        const slope = slopes[i] as number;
        tried[RIGHT + i] = (tried[RIGHT + i] as number) + slope * residual;
        for (let j = i; j < PARAMETERS; j++)
          tried[i * PARAMETERS + j] = (tried[i * PARAMETERS + j] as number) + slope * (slopes[j] as number);
      }
    }
    for (let i = 1; i < PARAMETERS; i++)
      for (let j = 0; j < i; j++) tried[i * PARAMETERS + j] = tried[j * PARAMETERS + i] as number;
    tried[MISFIT] = misfit;
    return misfit;
  }

  private step(damping: number): Float64Array | undefined {
    const matrix = this.accepted.slice(0, RIGHT);
    for (let i = 0; i < PARAMETERS; i++) {
      const diagonal = i * PARAMETERS + i;
      matrix[diagonal] = (matrix[diagonal] as number) * (1 + damping) + 1e-12;
    }
    return solve(matrix, this.accepted.subarray(RIGHT, MISFIT));
  }

  /** The profile's mean over a pixel; its derivatives with respect to the parameters are left in `slopes`. */
  private model(parameters: Float64Array, dx: number, dy: number): number {
    const x = parameters[0] as number;
    const y = parameters[1] as number;
    const peak = parameters[2] as number;
    const a = parameters[3] as number;
    const b = parameters[4] as number;
    const c = parameters[5] as number;
    const q = parameters[6] as number;
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

function isSensible([x = 0, y = 0, peak = 0, a = 0, b = 0, c = 0]: Float64Array): boolean {
  return Math.abs(x) < 2 && Math.abs(y) < 2 && peak > 0 && a > 0 && c > 0 && a < 40 && c < 40 && a * c > b * b;
}
