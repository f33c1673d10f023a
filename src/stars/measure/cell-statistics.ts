/** Clipped mode and noise of the pixels of one mesh cell (Bertin & Arnouts 1996, A&AS 117, 393). */
import type { Samples } from '../pixels/bands.js';

/**
 * Frames above this many pixels are sampled: one pixel in eight, 512 of a cell, whose level is then known to 0.05 of
 * the noise, and after the median over 3 × 3 cells to 0.02.
 */
const DENSE_PIXELS = 4_000_000;
const BINS = 128;
/** Half the histogram's width, in initial estimates of the noise. */
const REACH = 5;
/** Noise of rounding to whole steps: 1/√12. */
const ROUNDING = 0.2887;
const PIXELS_MIN = 16;
const FIRST_LOOK = 48;
const QUARTILES_PER_SIGMA = 1.349;

/** The sampling of the pixels. */
export interface MeshOptions {
  /** Step between neighbouring sample values; 0 for floats. */
  readonly quantum: number;
  /** Only pixels with (x + y) of this parity count: the green ones of a colour sensor. */
  readonly parity: 0 | 1 | undefined;
  /** Pixels of the whole frame. */
  readonly framePixels: number;
}

interface Cell {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The sampled pixels of a cell. */
interface Grid extends Cell {
  readonly rowStep: number;
  readonly columnStep: number;
  readonly count: number;
}

/** Statistics of one cell after another, in samples; `NaN` if a cell has hardly any pixels. */
export class CellStatistics {
  level = NaN;
  noise = NaN;
  private readonly first = new Float64Array(FIRST_LOOK);
  /** Zero between fillings. */
  private readonly bins = new Int32Array(BINS);
  private readonly others = new Int32Array(BINS);
  /** Pixels below each bin, and sums of their bins' centres, in half bins. */
  private readonly below = new Int32Array(BINS + 1);
  private readonly sums = new Int32Array(BINS + 1);
  /** Start of the histogram, and its step. */
  private low = 0;
  private step = 1;

  /** @param width pixels in a row of the samples */
  constructor(
    private readonly samples: Samples,
    private readonly width: number,
    private readonly firstRow: number,
    private readonly options: MeshOptions,
  ) {}

  measure(cell: Cell): void {
    const grid = this.gridOf(cell);
    // The neighbour's values are a good initial guess; if they exclude much of this cell, it starts afresh.
    if (!(this.noise > 0 && this.fill(grid, this.level, this.noise) > 0.8 * grid.count)) {
      const sorted = this.firstLook(cell);
      const usable = sorted.length;
      this.level = this.noise = NaN;
      if (usable < PIXELS_MIN) return;
      const centre = sorted[usable >> 1] as number;
      const quartiles = (sorted[(usable * 3) >> 2] as number) - (sorted[usable >> 2] as number);
      this.fill(grid, centre, Math.max((1.3 * quartiles) / QUARTILES_PER_SIGMA, this.floorAt(centre)));
    }
    this.clip();
    this.noise = Math.max(this.withoutBins(this.noise), this.floorAt(this.level));
  }

  /**
   * A histogram widens what it holds: values of width s, spread evenly inside bins of that width, have s²/6 more
   * variance than before they were sorted in (Sheppard's correction, twice), of which rounding to whole steps is the
   * samples' own.
   */
  private withoutBins(noise: number): number {
    return Math.sqrt(Math.max(0, noise ** 2 - this.step ** 2 / 6 + this.options.quantum ** 2 / 12));
  }

  private gridOf({ left, right, top, bottom }: Cell): Grid {
    const { parity, framePixels } = this.options;
    const dense = framePixels <= DENSE_PIXELS;
    const rowStep = dense ? 1 : parity === undefined ? 4 : 3;
    const columnStep = dense && parity === undefined ? 1 : 2;
    const count = Math.ceil((bottom - top) / rowStep) * Math.floor((right - left) / columnStep);
    return { left, right, top, bottom, rowStep, columnStep, count };
  }

  /** The first sampled column of a row: every second pixel is shifted from row to row, or on green. */
  private startOf(y: number, grid: Grid): number {
    const { parity } = this.options;
    const shift =
      parity === undefined ? (y >> 1) & (grid.columnStep - 1) : (grid.left + y + this.firstRow + parity) & 1;
    return y * this.width + grid.left + shift;
  }

  /** The minimum noise from rounding. */
  private floorAt(level: number): number {
    const { quantum } = this.options;
    return quantum > 0 ? ROUNDING * quantum : Math.max(Math.abs(level) * 1e-7, 1e-30);
  }

  private firstLook({ left, right, top, bottom }: Cell): Float64Array {
    const { parity } = this.options;
    let picked = 0;
    for (let i = 0; i < FIRST_LOOK; i++) {
      // Positions spread over the cell by two steps without a common period.
      const y = top + ((i * 7) % (bottom - top));
      let x = left + ((i * 13) % (right - left));
      if (parity !== undefined && ((x + y + this.firstRow) & 1) !== parity) x += x + 1 < right ? 1 : -1;
      const value = this.samples[y * this.width + x] as number;
      if (!Number.isNaN(value)) this.first[picked++] = value;
    }
    return this.first.subarray(0, picked).sort();
  }

  /** Fills the histogram and its running sums; returns the number of pixels that fall into it. */
  private fill(grid: Grid, centre: number, spread: number): number {
    const { quantum } = this.options;
    const { samples, bins } = this;
    const wanted = (2 * REACH * spread) / BINS;
    const shift = Math.max(0, Math.ceil(Math.log2(wanted / quantum)));
    this.step = quantum > 0 ? quantum * 2 ** shift : wanted;
    // Integers are at the centres of their bins.
    this.low =
      quantum > 0 ? Math.round(centre) - (BINS >> 1) * this.step - quantum / 2 : centre - (BINS >> 1) * this.step;
    if (samples instanceof Int16Array) this.countWhole(samples, grid, Math.ceil(this.low), shift);
    else this.count(samples, grid);
    const { below, sums, others } = this;
    let total = 0;
    let sum = 0;
    for (let bin = 0; bin < BINS; bin++) {
      const here = (bins[bin] as number) + (others[bin] as number);
      bins[bin] = others[bin] = 0;
      total += here;
      sum += here * (2 * bin + 1);
      below[bin + 1] = total;
      sums[bin + 1] = sum;
    }
    return total;
  }

  private countWhole(samples: Int16Array, grid: Grid, low: number, shift: number): void {
    const { bins, others } = this;
    const step = grid.columnStep;
    // Neighbours often fall into one bin; alternating between two histograms avoids write stalls.
    for (let y = grid.top; y < grid.bottom; y += grid.rowStep) {
      const end = y * this.width + grid.right;
      let at = this.startOf(y, grid);
      for (const stop = end - step; at < stop; at += 2 * step) {
        const one = ((samples[at] as number) - low) >> shift;
        const two = ((samples[at + step] as number) - low) >> shift;
        if (one >= 0 && one < BINS) bins[one] = (bins[one] as number) + 1;
        if (two >= 0 && two < BINS) others[two] = (others[two] as number) + 1;
      }
      for (; at < end; at += step) {
        const bin = ((samples[at] as number) - low) >> shift;
        if (bin >= 0 && bin < BINS) bins[bin] = (bins[bin] as number) + 1;
      }
    }
  }

  private count(samples: Samples, grid: Grid): void {
    const { bins, low } = this;
    const perStep = 1 / this.step;
    for (let y = grid.top; y < grid.bottom; y += grid.rowStep) {
      const end = y * this.width + grid.right;
      for (let at = this.startOf(y, grid); at < end; at += grid.columnStep) {
        const bin = ((samples[at] as number) - low) * perStep;
        if (bin >= 0 && bin < BINS) bins[bin | 0] = (bins[bin | 0] as number) + 1;
      }
    }
  }

  /** Clips at 3σ about the median until nothing changes. */
  private clip(): void {
    let from = 0;
    let to = BINS;
    let near = BINS >> 1;
    for (let round = 0; round < 5; round++) {
      const median = this.quantile(from, to, 0.5, near);
      near = Math.min(Math.floor(median), to - 1);
      const sigma = (this.quantile(from, to, 0.75, near) - this.quantile(from, to, 0.25, near)) / QUARTILES_PER_SIGMA;
      const total = (this.below[to] as number) - (this.below[from] as number);
      const mean = ((this.sums[to] as number) - (this.sums[from] as number)) / 2 / total;
      const mode = Math.abs(mean - median) < 0.3 * sigma ? 2.5 * median - 1.5 * mean : median;
      this.level = this.low + mode * this.step;
      this.noise = sigma * this.step;
      const nextFrom = Math.max(from, Math.floor(median - 3 * sigma));
      const nextTo = Math.min(to, Math.ceil(median + 3 * sigma));
      if ((nextFrom === from && nextTo === to) || nextTo - nextFrom < 3) return;
      from = nextFrom;
      to = nextTo;
      near = Math.min(Math.max(near, from), to - 1);
    }
  }

  /**
   * In bins, assuming even spread inside a bin.
   * @param near a bin in `[from, to)` to search from: a few steps are faster than bisection
   */
  private quantile(from: number, to: number, share: number, near: number): number {
    const { below } = this;
    const start = below[from] as number;
    const wanted = start + ((below[to] as number) - start) * share;
    let low = near;
    while (low > from && (below[low] as number) >= wanted) low--;
    while (low + 1 < to && (below[low + 1] as number) < wanted) low++;
    const here = (below[low + 1] as number) - (below[low] as number);
    return here > 0 ? low + (wanted - (below[low] as number)) / here : low;
  }
}
