/**
 * Background and noise on a mesh (Bertin & Arnouts 1996, A&AS 117, 393): in each cell the clipped mode, a 3 × 3 median
 * over cells, bilinear between them. Levels are in samples.
 */
import type { Samples } from '../pixels/bands.js';
import { CellStatistics, type MeshOptions } from './cell-statistics.js';

const CELL = 64;

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
    const down = cellsAt(y, this.cellHeight, this.rows);
    const low = Math.floor(down);
    const share = down - low;
    const above = Math.min(low + 1, this.rows - 1) * columns;
    for (let i = 0; i < columns; i++) {
      const a = (this.levels[low * columns + i] as number) + factor * (this.noises[low * columns + i] as number);
      const b = (this.levels[above + i] as number) + factor * (this.noises[above + i] as number);
      out[i] = a + (b - a) * share;
    }
  }

  /** One value of a row, interpolated between the cell columns' centres. */
  alongRow(values: Float64Array, x: number): number {
    const across = cellsAt(x, this.cellWidth, this.columns);
    const left = Math.floor(across);
    const here = values[left] as number;
    return left === across ? here : here + ((values[left + 1] as number) - here) * (across - left);
  }

  /** Where a cell column's centre is, px from 0. */
  centreOf(column: number): number {
    return (column + 0.5) * this.cellWidth - 0.5;
  }

  private between(values: Float64Array, x: number, y: number): number {
    const across = cellsAt(x, this.cellWidth, this.columns);
    const down = cellsAt(y, this.cellHeight, this.rows);
    const left = Math.floor(across);
    const right = Math.min(left + 1, this.columns - 1);
    const row = Math.floor(down) * this.columns;
    const below = Math.min(Math.floor(down) + 1, this.rows - 1) * this.columns;
    const share = across - left;
    const top = mix(values[row + left] as number, values[row + right] as number, share);
    const bottom = mix(values[below + left] as number, values[below + right] as number, share);
    return mix(top, bottom, down - Math.floor(down));
  }
}

function mix(a: number, b: number, share: number): number {
  return a + (b - a) * share;
}

/** A position in cells, counted between their centres; positions beyond the outer centres are clamped to them. */
function cellsAt(at: number, size: number, count: number): number {
  return Math.min(Math.max((at + 0.5) / size - 0.5, 0), count - 1);
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
  const cell = new CellStatistics(samples, width, firstRow, options);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      cell.measure({
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

/** 3 × 3 median over cells that have a value; cells without one take the median of all. */
function smoothed(values: Float64Array, columns: number): Float64Array {
  const rows = values.length / columns;
  const sorted = values.filter((value) => !Number.isNaN(value)).sort();
  const fallback = sorted.length === 0 ? NaN : (sorted[sorted.length >> 1] as number);
  const out = new Float64Array(values.length);
  const near = new Float64Array(9);
  for (let y = 0; y < rows; y++)
    for (let x = 0; x < columns; x++) {
      let count = 0;
      for (let j = Math.max(0, y - 1); j <= Math.min(rows - 1, y + 1); j++)
        for (let i = Math.max(0, x - 1); i <= Math.min(columns - 1, x + 1); i++) {
          const value = values[j * columns + i] as number;
          if (!Number.isNaN(value)) insert(near, count++, value);
        }
      const half = count >> 1;
      const upper = near[half] as number;
      out[y * columns + x] =
        count === 0 ? fallback : count % 2 === 1 ? upper : ((near[half - 1] as number) + upper) / 2;
    }
  return out;
}

/** Inserts a value into the first `count`, which are sorted. */
function insert(sorted: Float64Array, count: number, value: number): void {
  let at = count;
  for (; at > 0 && (sorted[at - 1] as number) > value; at--) sorted[at] = sorted[at - 1] as number;
  sorted[at] = value;
}
