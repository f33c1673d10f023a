/**
 * Background and noise on a mesh (Bertin & Arnouts 1996, A&AS 117, 393): in each cell the clipped mode, a 3 × 3 median
 * over cells, bilinear between them. Levels are in samples.
 */
import type { Samples } from '../pixels/bands.js';

const CELL = 64;
/** Frames above this many pixels are sampled: one pixel in four is enough for a cell. */
const DENSE_PIXELS = 4_000_000;
const BINS = 256;
/** Half the histogram's width, in first estimates of the noise. */
const REACH = 6;
/** Noise of rounding to whole steps: 1/√12. */
const ROUNDING = 0.2887;

export class Mesh {
  constructor(
    readonly columns: number,
    readonly rows: number,
    private readonly cellWidth: number,
    private readonly cellHeight: number,
    readonly levels: Float64Array,
    readonly noises: Float64Array,
  ) {}

  levelAt(x: number, y: number): number {
    return this.between(this.levels, x, y);
  }

  noiseAt(x: number, y: number): number {
    return this.between(this.noises, x, y);
  }

  /** Level + factor × noise at a row, one value per cell column's centre. */
  thresholds(y: number, factor: number, out: Float64Array): void {
    const { columns } = this;
    const { low, share } = place(y, this.cellHeight, this.rows);
    const above = Math.min(low + 1, this.rows - 1) * columns;
    for (let i = 0; i < columns; i++) {
      const a = (this.levels[low * columns + i] as number) + factor * (this.noises[low * columns + i] as number);
      const b = (this.levels[above + i] as number) + factor * (this.noises[above + i] as number);
      out[i] = a + (b - a) * share;
    }
  }

  /** The first pixel column nearer to the next cell's centre; runs of columns between cell centres. */
  centreOf(column: number): number {
    return (column + 0.5) * this.cellWidth;
  }

  private between(values: Float64Array, x: number, y: number): number {
    const across = place(x, this.cellWidth, this.columns);
    const down = place(y, this.cellHeight, this.rows);
    const right = Math.min(across.low + 1, this.columns - 1);
    const below = Math.min(down.low + 1, this.rows - 1) * this.columns;
    const row = down.low * this.columns;
    const top = mix(values[row + across.low] as number, values[row + right] as number, across.share);
    return mix(
      top,
      mix(values[below + across.low] as number, values[below + right] as number, across.share),
      down.share,
    );
  }
}

function mix(a: number, b: number, share: number): number {
  return a + (b - a) * share;
}

function place(at: number, size: number, count: number): { low: number; share: number } {
  const cells = Math.min(Math.max((at + 0.5) / size - 0.5, 0), count - 1);
  const low = Math.min(Math.floor(cells), count - 1);
  return { low, share: cells - low };
}

/** What of the pixels is looked at. */
export interface MeshOptions {
  /** Step between neighbouring sample values; 0 for floats. */
  readonly quantum: number;
  /** Only pixels with (x + y) of this parity count: the green ones of a colour sensor. */
  readonly parity: 0 | 1 | undefined;
  /** Pixels of the whole frame. */
  readonly framePixels: number;
}

/**
 * Measures the mesh of one band.
 * @param firstRow the band's first row in the frame, for the parity
 */
export function measureMesh(samples: Samples, width: number, firstRow: number, options: MeshOptions): Mesh {
  const height = samples.length / width;
  const columns = Math.max(1, Math.round(width / CELL));
  const rows = Math.max(1, Math.round(height / CELL));
  const levels = new Float64Array(columns * rows);
  const noises = new Float64Array(columns * rows);
  const cell = new CellStatistics(Math.ceil(width / columns + 1) * Math.ceil(height / rows + 1), options);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      cell.gather(samples, width, firstRow, {
        left: Math.floor((column * width) / columns),
        right: Math.floor(((column + 1) * width) / columns),
        top: Math.floor((row * height) / rows),
        bottom: Math.floor(((row + 1) * height) / rows),
      });
      levels[row * columns + column] = cell.level;
      noises[row * columns + column] = cell.noise;
    }
  return new Mesh(columns, rows, width / columns, height / rows, smoothed(levels, columns), smoothed(noises, columns));
}

/** 3 × 3 median over cells that have a value; cells without one take their neighbours'. */
function smoothed(values: Float64Array, columns: number): Float64Array {
  const rows = values.length / columns;
  const fallback = middle([...values].filter((value) => !Number.isNaN(value)));
  return values.map((_, cell) => {
    const x = cell % columns;
    const y = Math.floor(cell / columns);
    const near: number[] = [];
    for (let j = Math.max(0, y - 1); j <= Math.min(rows - 1, y + 1); j++)
      for (let i = Math.max(0, x - 1); i <= Math.min(columns - 1, x + 1); i++) {
        const value = values[j * columns + i] as number;
        if (!Number.isNaN(value)) near.push(value);
      }
    return near.length === 0 ? fallback : middle(near);
  });
}

function middle(values: number[]): number {
  values.sort((a, b) => a - b);
  const half = values.length >> 1;
  return values.length % 2 === 1
    ? (values[half] as number)
    : ((values[half - 1] as number) + (values[half] as number)) / 2;
}

interface Cell {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Clipped mode and noise of one cell after another; `NaN` where a cell has hardly any pixels. */
class CellStatistics {
  level = NaN;
  noise = NaN;
  private readonly values: Float64Array;
  private readonly first = new Float64Array(64);
  private readonly bins = new Int32Array(BINS);

  constructor(
    capacity: number,
    private readonly options: MeshOptions,
  ) {
    this.values = new Float64Array(capacity);
  }

  gather(samples: Samples, width: number, firstRow: number, { left, right, top, bottom }: Cell): void {
    const { parity, framePixels } = this.options;
    const dense = framePixels <= DENSE_PIXELS;
    const rowStep = dense ? 1 : parity === undefined ? 2 : 3;
    const columnStep = dense && parity === undefined ? 1 : 2;
    let count = 0;
    for (let y = top; y < bottom; y += rowStep) {
      const shift = parity === undefined ? (y >> 1) & (columnStep - 1) : (left + y + firstRow + parity) & 1;
      const end = y * width + right;
      for (let at = y * width + left + shift; at < end; at += columnStep) {
        const value = samples[at] as number;
        if (!Number.isNaN(value)) this.values[count++] = value;
      }
    }
    this.estimate(count);
  }

  private estimate(count: number): void {
    this.level = this.noise = NaN;
    if (count < 16) return;
    const picks = Math.min(64, count);
    for (let i = 0; i < picks; i++) this.first[i] = this.values[Math.floor((i * count) / picks)] as number;
    const sorted = this.first.subarray(0, picks).sort();
    const centre = sorted[picks >> 1] as number;
    const spread = ((sorted[(picks * 3) >> 2] as number) - (sorted[picks >> 2] as number)) / 1.349;
    const { quantum } = this.options;
    const floor = quantum > 0 ? ROUNDING * quantum : Math.max(Math.abs(centre) * 1e-7, 1e-30);
    this.histogram(count, centre, Math.max(spread, floor));
    this.noise = Math.max(this.noise, floor);
  }

  private histogram(count: number, centre: number, spread: number): void {
    const { quantum } = this.options;
    const { bins, values } = this;
    let step = (2 * REACH * spread) / BINS;
    if (quantum > 0) step = Math.max(1, Math.ceil(step / quantum)) * quantum;
    // Whole numbers stand in the middle of their bins.
    const low = centre - (BINS >> 1) * step - (quantum > 0 ? quantum / 2 : 0);
    const perStep = 1 / step;
    bins.fill(0);
    for (let i = 0; i < count; i++) {
      const bin = ((values[i] as number) - low) * perStep;
      if (bin >= 0 && bin < BINS) bins[bin | 0] = (bins[bin | 0] as number) + 1;
    }
    let from = 0;
    let to = BINS;
    for (let round = 0; round < 4; round++) {
      const median = quantile(bins, from, to, 0.5);
      const sigma = (quantile(bins, from, to, 0.75) - quantile(bins, from, to, 0.25)) / 1.349;
      const mean = meanOf(bins, from, to);
      const mode = Math.abs(mean - median) < 0.3 * sigma ? 2.5 * median - 1.5 * mean : median;
      this.level = low + mode * step;
      this.noise = sigma * step;
      const nextFrom = Math.max(0, Math.floor(median - 3 * sigma));
      const nextTo = Math.min(BINS, Math.ceil(median + 3 * sigma));
      if ((nextFrom <= from && nextTo >= to) || nextTo - nextFrom < 3) return;
      from = Math.max(from, nextFrom);
      to = Math.min(to, nextTo);
    }
  }
}

/** In bins from the first one's lower edge, with even spread inside a bin. */
function quantile(bins: Int32Array, from: number, to: number, share: number): number {
  let total = 0;
  for (let bin = from; bin < to; bin++) total += bins[bin] as number;
  let left = total * share;
  for (let bin = from; bin < to; bin++) {
    const here = bins[bin] as number;
    if (here >= left && here > 0) return bin + left / here;
    left -= here;
  }
  return (from + to) / 2;
}

function meanOf(bins: Int32Array, from: number, to: number): number {
  let total = 0;
  let sum = 0;
  for (let bin = from; bin < to; bin++) {
    total += bins[bin] as number;
    sum += (bins[bin] as number) * (bin + 0.5);
  }
  return total === 0 ? (from + to) / 2 : sum / total;
}
