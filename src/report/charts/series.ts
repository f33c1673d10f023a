import type { ChartDataset } from 'chart.js';
import { ink, type InkStyle } from './inks.js';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Marks by train: they differ in shape as well as colour, and are drawn with few strokes. */
export const TRAIN_MARKS = ['rectRot', 'rect', 'triangle', 'crossRot'] as const;

/** A curve of many points: a line without marks. `NaN` breaks it. */
export function curve(label: string, data: readonly Point[], colour: string, more: { width?: number; style?: InkStyle; axis?: string; fillTo?: number; stepped?: boolean } = {}): ChartDataset<'scatter', Point[]> {
  const { width = 1.8, style = 'plain', axis = 'y', stepped = false } = more;
  return {
    label, data: [...data], showLine: true, yAxisID: axis, pointRadius: 0, borderWidth: width, borderColor: ink(colour, style),
    borderJoinStyle: 'round', stepped, spanGaps: false, fill: false,
  };
}

/** Single values: marks without a line. Values to be looked at stand larger. */
export function marks(label: string, data: readonly Point[], colour: string, trainIndex: number, radius = 3.2): ChartDataset<'scatter', Point[]> {
  return {
    label, data: [...data], showLine: false, pointRadius: radius, pointStyle: TRAIN_MARKS[trainIndex % TRAIN_MARKS.length] ?? 'rect',
    backgroundColor: ink(colour), borderWidth: 0,
  };
}

/** A level line across the chart. */
export function level(label: string, y: number, startMs: number, endMs: number, colour: string, style: InkStyle = 'dashed'): ChartDataset<'scatter', Point[]> {
  return curve(label, [{ x: startMs, y }, { x: endMs, y }], colour, { width: 1.3, style });
}

/**
 * At most `limit` points of a series, so that a picture does not grow with the night: of every group its lowest
 * and its highest value stay, in their order.
 */
export function thinOut(points: readonly Point[], limit: number): Point[] {
  if (points.length <= limit) return [...points];
  const groups = Math.max(1, Math.floor(limit / 2));
  const size = points.length / groups;
  const out: Point[] = [];
  for (let group = 0; group < groups; group++) {
    const part = points.slice(Math.floor(group * size), Math.floor((group + 1) * size));
    const low = part.reduce((best, point) => (point.y < best.y ? point : best), part[0] ?? { x: 0, y: 0 });
    const high = part.reduce((best, point) => (point.y > best.y ? point : best), part[0] ?? { x: 0, y: 0 });
    out.push(...(low === high ? [low] : [low, high].sort((a, b) => a.x - b.x)));
  }
  return out;
}

/** The middle value; the mean of the two middle ones for an even count; `null` for none. */
export function median(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const [low, high] = [sorted[half - 1] ?? 0, sorted[half] ?? 0];
  return sorted.length % 2 === 1 ? high : (low + high) / 2;
}
