import type { ChartDataset } from 'chart.js';
import { decimal, listed, median, type Progress } from '../../../model/index.js';
import { outsideMargin } from '../../charts/annotations.js';
import { directLabels, verticals, type DirectLabel } from '../../charts/marks.js';
import { valueScale } from '../../charts/axes.js';
import type { ChartDrawing, ChartSize, NoDrawing } from '../../charts/chart.js';
import { timeChart } from '../../charts/frame.js';
import { ink } from '../../charts/inks.js';
import { curve, thinOut, type Point } from '../../charts/series.js';
import type { ProgressContext } from '../context.js';
import { noonMs } from '../dates.js';
import { axisSpan, besideText, dateScale } from './date-axis.js';

/** One figure of merit, night by night. */
export interface Trend {
  readonly id: string;
  readonly title: string;
  /** What the values are, and their unit. */
  readonly axis: string | ((progress: Progress) => string);
  readonly digits: number;
  readonly missing: string;
  /** Smallest span of the axis: variation within it is no change. */
  readonly leastSpan?: number;
  /** The series: one for the night as a whole, or one per train. */
  readonly series: (progress: Progress) => readonly TrendSeries[];
  /** Nights to be marked by a vertical line, and what happened before them. */
  readonly marks?: (progress: Progress) => readonly { readonly date: string; readonly what: string }[];
}

export interface TrendSeries {
  readonly label: string;
  /** Text next to the curve; the label unless given. */
  readonly short?: string;
  /** The train whose colour it has; without one, the text colour. */
  readonly train?: string;
  readonly values: readonly { readonly date: string; readonly value: number }[];
}

const MOST_MARKS = 260;
/** Number of nights of the running median, centred. */
const WINDOW = 7;

/** Markers of a train: a square or a diamond. */
const MARKS = ['rect', 'rectRot', 'triangle', 'crossRot'] as const;

function marks(label: string, data: readonly Point[], colour: string, index: number): ChartDataset {
  return {
    label,
    data: [...data],
    showLine: false,
    pointRadius: 3.4,
    pointStyle: MARKS[index % MARKS.length] ?? 'rect',
    backgroundColor: ink(colour),
    borderWidth: 0,
  };
}

/** The running median, from the third night on. */
function running(points: readonly Point[]): Point[] {
  const half = Math.floor(WINDOW / 2);
  return points.map(({ x }, i) => ({
    x,
    y: median(points.slice(Math.max(0, i - half), i + half + 1).map((p) => p.y)),
  }));
}

/** The marked nights in words, the first few of them. */
function markedText(marked: readonly { readonly date: string; readonly what: string }[]): string {
  if (marked.length === 0) return '';
  const first = marked.slice(0, 5).map(({ date, what }) => `${date} (${what})`);
  const more = marked.length > 5 ? [`${marked.length - 5} more`] : [];
  return ` Something was changed before ${listed([...first, ...more])}.`;
}

/** An axis wide enough for insignificant variation not to look like a change. */
function leastSpan(
  { leastSpan: span }: Trend,
  points: readonly Point[],
): { suggestedMin?: number; suggestedMax?: number } {
  if (span === undefined) return {};
  const values = points.map((p) => p.y);
  const middle = (Math.min(...values) + Math.max(...values)) / 2;
  // Non-negative values have no axis below zero.
  const from = Math.min(...values) >= 0 ? Math.max(0, middle - span / 2) : middle - span / 2;
  return { suggestedMin: from, suggestedMax: from + span };
}

/** Draws a trend: a marker per night, and the median of seven nights as a curve; the same in every size. */
export function drawTrend(
  trend: Trend,
  { progress, palette }: ProgressContext,
): (size: ChartSize) => ChartDrawing | NoDrawing {
  const series = trend.series(progress).filter((s) => s.values.length > 0);
  if (series.length === 0) return () => ({ missing: trend.missing });
  const { startMs, endMs } = axisSpan(progress.nights.map((n) => n.date));
  const drawn = series.map((s) => {
    const points = s.values.map(({ date, value }) => ({ x: noonMs(date), y: value }));
    return {
      ...s,
      points,
      colour: s.train === undefined ? 'ink' : palette.train(s.train),
      middle: median(points.map((p) => p.y)),
      marks: thinOut(points, MOST_MARKS),
      curve: points.length >= 3 ? thinOut(running(points), MOST_MARKS) : null,
    };
  });
  const marked = trend.marks?.(progress) ?? [];
  const ofValues = {
    digits: trend.digits,
    ...leastSpan(
      trend,
      drawn.flatMap((s) => s.points),
    ),
  };
  const altText =
    `${trend.title}; medians: ` +
    listed(
      drawn.map(
        ({ label, middle, values }) => `${label} ${decimal(middle, trend.digits)} over ${values.length} nights`,
      ),
    ) +
    '.' +
    markedText(marked);
  return (size) => {
    const datasets = drawn.flatMap((s, index) => [
      ...(s.curve ? [curve(`${s.label}, median of ${WINDOW} nights`, s.curve, s.colour, { width: 1.2 })] : []),
      marks(s.label, s.marks, s.colour, index),
    ]);
    const labels = drawn.flatMap(({ label, short = label, points, colour, train }): DirectLabel[] => {
      const last = points.at(-1);
      return train !== undefined && last
        ? [{ x: last.x, y: last.y, text: besideText(short, size), colour, outside: true }]
        : [];
    });
    const margin = outsideMargin(labels.map((label) => label.text));
    return {
      config: timeChart(
        datasets,
        {
          x: dateScale(startMs, endMs, size, margin),
          y: valueScale(typeof trend.axis === 'string' ? trend.axis : trend.axis(progress), ofValues),
        },
        [verticals(marked.map(({ date }) => ({ atMs: noonMs(date), colour: 'wait' }))), directLabels(labels)],
        margin,
      ),
      heightPx: size === 'narrow' ? 200 : 190,
      altText,
      table: null,
    };
  };
}
