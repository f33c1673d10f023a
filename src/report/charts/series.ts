import type { ChartDataset } from 'chart.js';
import type { Interval } from '../../model/index.js';
import { ink, type InkStyle } from './inks.js';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Stroke widths by train, px: trains differ in width as well as colour. */
const STROKES = [3.4, 1.7, 5, 2.5] as const;

/** A curve of many points: a line without markers. `NaN` interrupts it. */
export function curve(
  label: string,
  data: readonly Point[],
  colour: string,
  more: { width?: number; style?: InkStyle; axis?: string; fillTo?: number; stepped?: boolean } = {},
): ChartDataset {
  const { width = 1.8, style = 'plain', axis = 'y', stepped = false } = more;
  return {
    label,
    data: [...data],
    showLine: true,
    yAxisID: axis,
    pointRadius: 0,
    borderWidth: width,
    borderColor: ink(colour, style),
    borderJoinStyle: 'round',
    stepped,
    spanGaps: false,
    fill: false,
  };
}

/** Number of exposures a chart shows individually; with more, the lowest and highest of each group. */
const MOST_STROKES = 700;

/** One value per exposure: a horizontal stroke as long as the shutter was open. */
export function strokes(
  label: string,
  all: readonly { readonly span: Interval; readonly y: number }[],
  colour: string,
  trainIndex: number,
): ChartDataset {
  const values = all.length <= MOST_STROKES ? all : extremes(all, MOST_STROKES);
  const points = values.flatMap(({ span, y }) => [
    { x: span.startMs, y },
    { x: span.endMs, y },
    { x: span.endMs, y: Number.NaN },
  ]);
  return curve(label, points, colour, { width: STROKES[trainIndex % STROKES.length] ?? 2 });
}

/** A horizontal line across the chart. */
export function level(
  label: string,
  y: number,
  startMs: number,
  endMs: number,
  colour: string,
  style: InkStyle = 'dashed',
): ChartDataset {
  return curve(
    label,
    [
      { x: startMs, y },
      { x: endMs, y },
    ],
    colour,
    { width: 1.3, style },
  );
}

/**
 * At most `limit` points of a series, so that a picture does not grow with the night: of every group its lowest and
 * highest value are kept, in order.
 */
export function thinOut(points: readonly Point[], limit: number): Point[] {
  return points.length <= limit ? [...points] : extremes(points, limit);
}

/** Of each of `limit / 2` groups the lowest and the highest, in their order. */
function extremes<T extends { readonly y: number }>(items: readonly T[], limit: number): T[] {
  const groups = Math.max(1, Math.floor(limit / 2));
  const size = items.length / groups;
  const out: T[] = [];
  const values = new Float64Array(items.length);
  for (let index = 0; index < values.length; index++) values[index] = items[index]?.y ?? Number.NaN;
  for (let group = 0; group < groups; group++) {
    const [from, to] = [Math.floor(group * size), Math.floor((group + 1) * size)];
    let [low, high] = [from, from];
    for (let index = from; index < to; index++) {
      const y = values[index]!;
      if (y < values[low]!) low = index;
      if (y > values[high]!) high = index;
    }
    for (const index of low === high ? [low] : [Math.min(low, high), Math.max(low, high)]) {
      const item = items[index];
      if (item !== undefined) out.push(item);
    }
  }
  return out;
}
