/** Stars sorted into square cells, so that the nearest to a point is found without examining all. */
import type { StarList } from './star-list.js';

export interface Grid {
  readonly list: StarList;
  readonly west: number;
  readonly south: number;
  readonly columns: number;
  readonly rows: number;
  readonly cellPx: number;
  /** Start of each cell's stars in `order`; one more entry than cells. */
  readonly starts: Int32Array;
  readonly order: Int32Array;
}

const CELL_PX = 32;
/** A stray coordinate must not make a grid of any size: cells grow instead. */
const MOST_CELLS_ALONG = 512;

export function gridOf(list: StarList): Grid {
  let west = Infinity;
  let south = Infinity;
  let east = -Infinity;
  let north = -Infinity;
  for (let i = 0; i < list.count; i++) {
    west = Math.min(west, list.x[i]!);
    east = Math.max(east, list.x[i]!);
    south = Math.min(south, list.y[i]!);
    north = Math.max(north, list.y[i]!);
  }
  if (list.count === 0) west = east = south = north = 0;
  const cellPx = Math.max(CELL_PX, Math.max(east - west, north - south) / MOST_CELLS_ALONG);
  const columns = Math.floor((east - west) / cellPx) + 1;
  const rows = Math.floor((north - south) / cellPx) + 1;
  const starts = new Int32Array(columns * rows + 1);
  const cells = new Int32Array(list.count);
  for (let i = 0; i < list.count; i++) {
    const column = Math.floor((list.x[i]! - west) / cellPx);
    const row = Math.floor((list.y[i]! - south) / cellPx);
    cells[i] = row * columns + column;
    starts[cells[i]! + 1]!++;
  }
  for (let c = 0; c < columns * rows; c++) starts[c + 1]! += starts[c]!;
  const next = starts.slice(0, -1);
  const order = new Int32Array(list.count);
  for (let i = 0; i < list.count; i++) order[next[cells[i]!]!++] = i;
  return { list, west, south, columns, rows, cellPx, starts, order };
}

/** Index of the star nearest to a point within a radius, or −1. */
export function nearest(grid: Grid, x: number, y: number, radiusPx: number): number {
  const { list, west, south, columns, rows, cellPx, starts, order } = grid;
  const firstColumn = Math.max(0, Math.floor((x - radiusPx - west) / cellPx));
  const lastColumn = Math.min(columns - 1, Math.floor((x + radiusPx - west) / cellPx));
  const firstRow = Math.max(0, Math.floor((y - radiusPx - south) / cellPx));
  const lastRow = Math.min(rows - 1, Math.floor((y + radiusPx - south) / cellPx));
  let best = -1;
  let least = radiusPx * radiusPx;
  for (let row = firstRow; row <= lastRow; row++) {
    for (let column = firstColumn; column <= lastColumn; column++) {
      const cell = row * columns + column;
      for (let at = starts[cell]!; at < starts[cell + 1]!; at++) {
        const star = order[at]!;
        const dx = list.x[star]! - x;
        const dy = list.y[star]! - y;
        const square = dx * dx + dy * dy;
        if (square <= least) {
          least = square;
          best = star;
        }
      }
    }
  }
  return best;
}
