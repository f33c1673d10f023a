/**
 * Positions of labels next to curves: inside the picture, separate from each other, and clear of lines that they must
 * not cover.
 */
import type { Chart } from 'chart.js';
import { TEXT_PX } from './axes.js';
import type { DirectLabel } from './marks.js';

/** A label with its position, px: `y` is its middle. */
export interface Placed {
  readonly label: DirectLabel;
  readonly left: number;
  readonly right: number;
  readonly x: number;
  y: number;
}

/** Preferred positions of labels, within the chart. */
export function place(chart: Chart, labels: readonly DirectLabel[]): Placed[] {
  const { ctx, chartArea } = chart;
  return labels.flatMap((label): Placed[] => {
    const [x, y] = [
      chart.scales.x?.getPixelForValue(label.x),
      chart.scales[label.axis ?? 'y']?.getPixelForValue(label.y),
    ];
    if (x === undefined || y === undefined) return [];
    const width = ctx.measureText(label.text).width;
    const align = label.align ?? 'left';
    const at = x + (label.dx ?? 0);
    const wanted = align === 'right' ? at - width : align === 'center' ? at - width / 2 : at;
    const left = label.outside
      ? chartArea.right + 6
      : Math.min(Math.max(wanted, chartArea.left + 2), chart.width - width - 2);
    return [
      {
        label,
        left,
        right: left + width,
        x: left,
        y: Math.min(Math.max(y + (label.dy ?? 0), chartArea.top + TEXT_PX / 2), chartArea.bottom - TEXT_PX / 2),
      },
    ];
  });
}

/** Separates overlapping labels by moving them down, and back up from the bottom. */
export function spread(placed: Placed[], floor: number): void {
  placed.sort((a, b) => a.y - b.y);
  for (const [index, one] of placed.entries()) {
    for (const other of placed.slice(0, index)) {
      if (one.left < other.right && other.left < one.right && one.y - other.y < TEXT_PX + 1)
        one.y = other.y + TEXT_PX + 1;
    }
    if (one.y > floor) one.y = floor;
  }
  for (let index = placed.length - 2; index >= 0; index--) {
    const one = placed[index];
    for (const other of placed.slice(index + 1)) {
      if (one && one.left < other.right && other.left < one.right && other.y - one.y < TEXT_PX + 1)
        one.y = other.y - TEXT_PX - 1;
    }
  }
}

/** A point of a line, px. */
export interface LinePoint {
  readonly x: number;
  readonly y: number;
}

/** Gap between a label and a line, px. */
const AIR_PX = 2;

/**
 * Moves labels that overlap a line to the nearest height at which they touch no line and no other label; if there is
 * none they stay.
 *
 * @param lines each from left to right
 */
export function clearLines(
  placed: readonly Placed[],
  lines: readonly (readonly LinePoint[])[],
  { top, bottom }: { readonly top: number; readonly bottom: number },
): void {
  const half = TEXT_PX / 2;
  for (const one of placed) {
    const bands = lines.flatMap((line) => bandOf(line, one.left, one.right) ?? []);
    const isOffLines = (y: number): boolean =>
      bands.every(({ from, to }) => y + half + AIR_PX <= from || y - half - AIR_PX >= to);
    const isAlone = (y: number): boolean =>
      placed.every(
        (other) =>
          other === one || one.left >= other.right || other.left >= one.right || Math.abs(other.y - y) > TEXT_PX,
      );
    if (isOffLines(one.y)) continue;
    const heights = Array.from({ length: Math.ceil(bottom - top) }, (_, d) => [one.y - d, one.y + d]).flat();
    one.y = heights.find((y) => y - half >= top && y + half <= bottom && isOffLines(y) && isAlone(y)) ?? one.y;
  }
}

/** The vertical extent of a line over a horizontal range; `null` if it does not cross it. */
function bandOf(line: readonly LinePoint[], left: number, right: number): { from: number; to: number } | null {
  const heights = line.flatMap(({ x, y }, i): number[] => {
    const next = line[i + 1];
    if (next === undefined || next.x < left || x > right || ![x, y, next.x, next.y].every(Number.isFinite)) return [];
    const at = (px: number): number => (next.x === x ? y : y + ((next.y - y) * (px - x)) / (next.x - x));
    return [at(Math.max(left, x)), at(Math.min(right, next.x))];
  });
  return heights.length === 0 ? null : { from: Math.min(...heights), to: Math.max(...heights) };
}
