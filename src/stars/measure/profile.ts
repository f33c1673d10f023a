/**
 * The full width at half maximum from the star's own profile: f(u) = A·(1 + q·k·u)^(−1/q) over the elliptical radius
 * u = dᵀM⁻¹d of its adaptive moments M. q = 0 is a Gaussian, q = 1/β a Moffat profile, q < 0 one that ends sooner.
 */
import type { Field, Shape } from './moments.js';

/** Radii up to this many standard deviations of M are fitted: 1.4 × FWHM. */
const REACH = 3.3;
const ITERATIONS = 12;
/** Between a Gaussian (q 0, k 0.5) and a Moffat profile of β 2.5 (q 0.4, k 0.779), all with the same moments (C). */
const FIRST_Q = 0.2;
const FIRST_K = 0.617;
const SHARPEST = -0.3;
const WIDEST = 1.2;
/** Pixels needed to fit three parameters. */
const PIXELS_MIN = 7;
/** Index of the sum of squares among the normal equations. */
const MISFIT = 9;

export interface Profile {
  /** Geometric mean of the widths along both axes, px. */
  readonly fwhm: number;
  /** 1/β; 0 for a Gaussian. */
  readonly q: number;
  readonly peak: number;
}

export class ProfileFit {
  private radii = new Float64Array(256);
  private values = new Float64Array(256);
  /** Normal equations of the current and trial parameters, row by row; their right sides; the residual sum. */
  private accepted = new Float64Array(10);
  private tried = new Float64Array(10);
  private readonly step = new Float64Array(3);

  /** Fits one star; `undefined` if the fit converges to no star-like profile. */
  fit(field: Field, shape: Shape, level: number): Profile | undefined {
    const count = this.gather(field, shape, level);
    if (count < PIXELS_MIN) return undefined;
    let a = shape.sum / (2 * Math.PI * Math.sqrt(determinantOf(shape)));
    let k = FIRST_K;
    let q = FIRST_Q;
    this.evaluate(count, a, k, q);
    this.accept();
    let damping = 1e-3;
    for (let iteration = 0; iteration < ITERATIONS; iteration++) {
      if (!this.solve(damping)) return undefined;
      const { step } = this;
      const nextA = a + (step[0] as number);
      const nextK = Math.min(Math.max(k + (step[1] as number), k * 0.4), k * 2.5);
      const nextQ = Math.min(Math.max(q + (step[2] as number), SHARPEST), WIDEST);
      // The last step is too small for the misfit to matter.
      const isLast = Math.abs(nextK - k) < 2e-4 * k && Math.abs(nextQ - q) < 1e-3;
      if (!isLast) {
        this.evaluate(count, nextA, nextK, nextQ);
        if ((this.tried[MISFIT] as number) > (this.accepted[MISFIT] as number)) {
          damping = Math.max(damping, 1e-3) * 10;
          if (damping > 1e6) break;
          continue;
        }
        this.accept();
        damping /= 10;
      }
      a = nextA;
      k = nextK;
      q = nextQ;
      if (isLast) break;
    }
    const half = Math.abs(q) < 1e-6 ? Math.LN2 : (2 ** q - 1) / q;
    const fwhm = 2 * Math.sqrt(half / k) * determinantOf(shape) ** 0.25;
    return a > 0 && fwhm > 0 && fwhm < 200 ? { fwhm, q, peak: a } : undefined;
  }

  private gather({ samples, width, height, parity }: Field, shape: Shape, level: number): number {
    const determinant = determinantOf(shape);
    const a = shape.yy / determinant;
    const b = -shape.xy / determinant;
    const c = shape.xx / determinant;
    const reachX = REACH * Math.sqrt(shape.xx);
    const reachY = REACH * Math.sqrt(shape.yy);
    const left = Math.max(0, Math.ceil(shape.x - reachX));
    const right = Math.min(width - 1, Math.floor(shape.x + reachX));
    const bottom = Math.min(height - 1, Math.floor(shape.y + reachY));
    const top = Math.max(0, Math.ceil(shape.y - reachY));
    const room = (right - left + 1) * (bottom - top + 1);
    if (room > this.radii.length) {
      this.radii = new Float64Array(2 * room);
      this.values = new Float64Array(2 * room);
    }
    let count = 0;
    for (let y = top; y <= bottom; y++)
      for (let x = left; x <= right; x++) {
        if (parity !== undefined && ((x + y) & 1) !== parity) continue;
        const dx = x - shape.x;
        const dy = y - shape.y;
        const u = a * dx * dx + 2 * b * dx * dy + c * dy * dy;
        const value = (samples[y * width + x] as number) - level;
        if (u > REACH * REACH || Number.isNaN(value)) continue;
        this.radii[count] = u;
        this.values[count++] = value;
      }
    return count;
  }

  private accept(): void {
    [this.accepted, this.tried] = [this.tried, this.accepted];
  }

  /** The residual sum, and the normal equations there: one pass over the pixels for both. */
  private evaluate(count: number, a: number, k: number, q: number): void {
    let aa = 0,
      ak = 0,
      aq = 0,
      kk = 0,
      kq = 0,
      qq = 0,
      ra = 0,
      rk = 0,
      rq = 0,
      misfit = 0;
    for (let i = 0; i < count; i++) {
      const u = this.radii[i] as number;
      const t = k * u;
      const base = Math.max(1 + q * t, 1e-9);
      const log = Math.log(base);
      const shape = Math.exp(Math.abs(q) < 1e-5 ? -t + (q * t * t) / 2 : base <= 1e-9 ? -700 : -log / q);
      const residual = (this.values[i] as number) - a * shape;
      const dk = (-a * shape * u) / base;
      const slope = Math.abs(q) < 1e-3 ? (t * t) / 2 - (2 * q * t * t * t) / 3 : log / (q * q) - t / (q * base);
      const dq = a * shape * slope;
      aa += shape * shape;
      ak += shape * dk;
      aq += shape * dq;
      kk += dk * dk;
      kq += dk * dq;
      qq += dq * dq;
      ra += shape * residual;
      rk += dk * residual;
      rq += dq * residual;
      misfit += residual * residual;
    }
    const { tried } = this;
    tried[0] = aa;
    tried[1] = ak;
    tried[2] = aq;
    tried[3] = kk;
    tried[4] = kq;
    tried[5] = qq;
    tried[6] = ra;
    tried[7] = rk;
    tried[8] = rq;
    tried[MISFIT] = misfit;
  }

  /** One damped Gauss–Newton step (Levenberg–Marquardt) into `step`: of a, k and q. False if there is none. */
  private solve(damping: number): boolean {
    const at = this.accepted;
    const aa = (at[0] as number) * (1 + damping);
    const ak = at[1] as number;
    const aq = at[2] as number;
    const kk = (at[3] as number) * (1 + damping);
    const kq = at[4] as number;
    const qq = (at[5] as number) * (1 + damping);
    const ra = at[6] as number;
    const rk = at[7] as number;
    const rq = at[8] as number;
    const m1 = kk * qq - kq * kq;
    const m2 = ak * qq - kq * aq;
    const m3 = ak * kq - kk * aq;
    const determinant = aa * m1 - ak * m2 + aq * m3;
    if (!(Math.abs(determinant) > 0) || !Number.isFinite(determinant)) return false;
    this.step[0] = (ra * m1 - ak * (rk * qq - kq * rq) + aq * (rk * kq - kk * rq)) / determinant;
    this.step[1] = (aa * (rk * qq - kq * rq) - ra * m2 + aq * (ak * rq - rk * aq)) / determinant;
    this.step[2] = (aa * (kk * rq - rk * kq) - ak * (ak * rq - rk * aq) + ra * m3) / determinant;
    return true;
  }
}

function determinantOf({ xx, xy, yy }: Shape): number {
  return xx * yy - xy * xy;
}
