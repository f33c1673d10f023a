import { decimal, listed, type Night, lightsOf } from '../../model/index.js';
import { greatest } from '../figures/greatest.js';
import { directLabels, type DirectLabel } from './marks.js';
import { timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { refocusMarks } from './refocuses.js';
import { curve, thinOut, type Point } from './series.js';
import { workSpan } from './sky-span.js';

interface FocusSeries {
  readonly id: string;
  /** Steps from the first frame. */
  readonly position: readonly Point[];
  /** °C. */
  readonly temperature: readonly Point[];
}

/** Maximum number of points of a line. */
const MOST_POINTS = 160;

function seriesOf(night: Night, id: string): FocusSeries {
  const frames = lightsOf(night, id);
  const series = (value: 'focusPosition' | 'focusTemperatureC'): Point[] =>
    frames.flatMap(({ header, exposure }) =>
      header?.[value] === undefined ? [] : [{ x: exposure.startMs, y: header[value] }],
    );
  const position = series('focusPosition');
  const first = position[0]?.y ?? 0;
  return { id, position: position.map(({ x, y }) => ({ x, y: y - first })), temperature: series('focusTemperatureC') };
}

function change(points: readonly Point[]): number {
  return (points.at(-1)?.y ?? 0) - (points[0]?.y ?? 0);
}

/** How far below the curve its name is, as a fraction of the chart's height. */
const NAME_BELOW = 0.06;

/** A value's height in the chart, 0 to 1, for a scale that spans all of them. */
function heights(all: readonly Point[]): (y: number) => number {
  const ys = all.map(({ y }) => y);
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  return (y) => (high > low ? (y - low) / (high - low) : 0.5);
}

/** Where to label the curve: of several points along it the one whose label is farthest from every focuser's line. */
function awayFrom(positions: readonly (readonly Point[])[], along: readonly Point[]): Point | undefined {
  const height = heights(along);
  const lineHeight = heights(positions.flat());
  const times = along.map(({ x }) => x);
  const widthMs = Math.max(1, Math.max(...times) - Math.min(...times));
  const lines = positions.map((own) => ({ own, steps: own.filter((one, i) => i > 0 && one.y !== own[i - 1]?.y) }));
  const room = ({ x, y }: Point): number =>
    Math.min(
      ...lines.flatMap(({ own, steps }) => {
        const now = own.findLast((one) => one.x <= x) ?? own[0];
        return [
          ...(now === undefined ? [] : [Math.abs(lineHeight(now.y) - (height(y) - NAME_BELOW))]),
          ...steps.map((step) => Math.abs(step.x - x) / widthMs),
        ];
      }),
      1,
    );
  return greatest(
    [0.34, 0.5, 0.2, 0.66, 0.8].flatMap((share) => along[Math.floor(along.length * share)] ?? []),
    room,
  );
}

export const focus: Chart = {
  id: 'focus',
  title: 'Focuser and temperature',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    const series = night.gathered.trains
      .map(({ id }) => seriesOf(night, id))
      .filter(({ position, temperature }) => position.length + temperature.length > 0);
    if (series.length === 0) return { missing: 'no header gives a focuser position or temperature' };
    const span = workSpan(night);
    // Trains on one mount share the air: the most complete temperature series represents all.
    const temperature = greatest(series, (one) => one.temperature.length)?.temperature ?? [];
    // The highest curve is labelled above itself, the others below: there is no space between two close ones.
    const highest = Math.max(...series.map(({ position }) => position.at(-1)?.y ?? -Infinity));
    const labels = series.flatMap(({ id, position }): DirectLabel[] => {
      const last = position.at(-1);
      return last
        ? [
            {
              x: last.x,
              y: last.y,
              text: id,
              colour: context.palette.train(id),
              align: 'right',
              dy: last.y === highest ? -9 : 9,
            },
          ]
        : [];
    });
    const named = awayFrom(
      series.map(({ position }) => position),
      temperature,
    );
    if (named)
      labels.push({
        x: named.x,
        y: named.y,
        text: 'temperature',
        colour: 'ink-soft',
        axis: 'temperature',
        align: 'center',
        dy: 12,
      });
    const thermometer =
      temperature.length === 0
        ? []
        : [
            curve('temperature', thinOut(temperature, MOST_POINTS), 'ink-soft', {
              width: 1.4,
              style: 'dashed',
              axis: 'temperature',
            }),
          ];
    const focusers = series.map(({ id, position }) =>
      curve(id, thinOut(position, MOST_POINTS), context.palette.train(id), { width: 2, stepped: true }),
    );
    const moves = listed(series.map(({ id, position }) => `${id} moved by ${decimal(change(position), 0)} steps`));
    const weather =
      temperature.length === 0 ? '' : ` while the temperature changed by ${decimal(change(temperature), 1)} °C`;
    return {
      config: timeChart(
        [...thermometer, ...focusers],
        {
          ...timeScales(context, span),
          y: valueScale('focuser, steps from the first frame', { digits: 0 }),
          ...(temperature.length === 0
            ? {}
            : { temperature: valueScale('temperature, °C', { right: true, digits: 1 }) }),
        },
        [refocusMarks(night, context), directLabels(labels)],
      ),
      heightPx: context.size === 'narrow' ? 240 : 260,
      altText: `Focuser position and temperature. ${moves}${weather}.`,
      table: null,
    };
  },
};
