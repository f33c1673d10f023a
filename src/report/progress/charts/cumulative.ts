import { counted, duration, listed, itemAt } from '../../../model/index.js';
import type { ChartDataset } from 'chart.js';
import { outsideMargin } from '../../charts/annotations.js';
import { directLabels, type DirectLabel } from '../../charts/marks.js';
import { valueScale } from '../../charts/axes.js';
import type { ChartDrawing, ChartSize, NoDrawing } from '../../charts/chart.js';
import { timeChart } from '../../charts/frame.js';
import { curve, type Point } from '../../charts/series.js';
import { noonMs } from '../dates.js';
import { axisSpan, besideText, dateScale } from './date-axis.js';

const HOUR = 3_600_000;
/** Maximum number of steps of a curve; with more nights several are combined. */
const MOST_STEPS = 200;

/** A cumulative quantity over the nights, as one curve. */
export interface Growth {
  readonly label: string;
  readonly colour: string;
  /** What each night added, ms. */
  readonly nights: readonly { readonly date: string; readonly ms: number }[];
  /** The goal, ms. */
  readonly goalMs?: number | null;
}

/** Sums by night, as the corners of a step curve. */
function stair(nights: Growth['nights'], endMs: number): Point[] {
  const every = Math.max(1, Math.ceil(nights.length / MOST_STEPS));
  const points: Point[] = [];
  let sum = 0;
  nights.forEach(({ date, ms }, index) => {
    if (points.length === 0) points.push({ x: noonMs(date), y: 0 });
    sum += ms;
    if ((index + 1) % every !== 0 && index < nights.length - 1) return;
    points.push({ x: noonMs(date), y: itemAt(points, points.length - 1).y }, { x: noonMs(date), y: sum / HOUR });
  });
  return [...points, { x: endMs, y: sum / HOUR }];
}

/** Kept integration as it grew from night to night; a dashed line at the goal. The same in every size. */
export function cumulative(
  growths: readonly Growth[],
  dates: readonly string[],
): (size: ChartSize) => ChartDrawing | NoDrawing {
  const drawn = growths.filter((g) => g.nights.some(({ ms }) => ms > 0));
  if (drawn.length === 0) return () => ({ missing: 'nothing was kept yet' });
  const { startMs, endMs } = axisSpan(dates);
  const curves = drawn.map((growth) => ({
    growth,
    points: stair(growth.nights, endMs),
    totalMs: growth.nights.reduce((sum, { ms }) => sum + ms, 0),
  }));
  const altText =
    `Kept integration over ${counted(dates.length, 'night')}: ` +
    listed(
      curves.map(
        ({ growth, totalMs }) =>
          `${growth.label} ${duration(totalMs)}${growth.goalMs ? ` of ${duration(growth.goalMs)}` : ''}`,
      ),
    ) +
    '.';
  return (size) => {
    const datasets = curves.flatMap(({ growth, points }): ChartDataset[] => [
      curve(growth.label, points, growth.colour, { width: 2.2 }),
      ...(growth.goalMs
        ? [
            curve(
              `${growth.label}, goal`,
              [
                { x: startMs, y: growth.goalMs / HOUR },
                { x: endMs, y: growth.goalMs / HOUR },
              ],
              growth.colour,
              { width: 1.1, style: 'dashed' },
            ),
          ]
        : []),
    ]);
    const labels = curves.map(
      ({ growth, totalMs }): DirectLabel => ({
        x: endMs,
        y: totalMs / HOUR,
        text: besideText(growth.label, size),
        colour: growth.colour,
        outside: true,
      }),
    );
    const margin = outsideMargin(labels.map((label) => label.text));
    return {
      config: timeChart(
        datasets,
        { x: dateScale(startMs, endMs, size, margin), y: valueScale('kept, hours', { min: 0 }) },
        [directLabels(labels)],
        margin,
      ),
      heightPx: size === 'narrow' ? 240 : 280,
      altText,
      table: null,
    };
  };
}
