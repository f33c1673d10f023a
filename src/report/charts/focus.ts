import type { Night } from '../../model/index.js';
import { decimal, listed } from '../text/number.js';
import { directLabels, uprights, type DirectLabel } from './annotations.js';
import { timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { curve, thinOut, type Point } from './series.js';
import { workSpan } from './sky-span.js';

interface FocusSeries {
  readonly id: string;
  readonly position: readonly Point[];
  readonly temperature: readonly Point[];
}

function seriesOf(night: Night): FocusSeries[] {
  return night.trains.map(({ id }) => {
    const frames = night.frames.filter((frame) => frame.train === id);
    const first = frames.find((frame) => frame.header?.focusPosition !== undefined)?.header?.focusPosition ?? 0;
    return {
      id,
      position: frames.flatMap(({ header, exposure }) => (header?.focusPosition === undefined ? [] : [{ x: exposure.startMs, y: header.focusPosition - first }])),
      temperature: frames.flatMap(({ header, exposure }) => (header?.focusTemperatureC === undefined ? [] : [{ x: exposure.startMs, y: header.focusTemperatureC }])),
    };
  }).filter(({ position, temperature }) => position.length > 0 || temperature.length > 0);
}

const LIMIT = 160;

export const focus: Chart = {
  id: 'focus',
  title: 'Focuser and temperature',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    const series = seriesOf(night);
    if (series.length === 0) return { missing: 'no header carries a focuser position or temperature' };
    const span = workSpan(night);
    const warmest = series.reduce<FocusSeries | undefined>((best, one) => (best === undefined || one.temperature.length > best.temperature.length ? one : best), undefined);
    const temperature = warmest?.temperature ?? [];
    const labels: DirectLabel[] = series.flatMap(({ id, position }) => {
      const last = position[position.length - 1];
      return last ? [{ x: last.x, y: last.y, text: id, colour: context.palette.train(id), align: 'right', dy: -9 } satisfies DirectLabel] : [];
    });
    const start = temperature[Math.floor(temperature.length / 3)];
    if (start) labels.push({ x: start.x, y: start.y, text: 'temperature', colour: 'ink-soft', axis: 'temperature', align: 'center', dy: 12 });
    const datasets = [
      ...(temperature.length === 0 ? [] : [curve('temperature', thinOut(temperature, LIMIT), 'ink-soft', { width: 1.4, style: 'dashed', axis: 'temperature' })]),
      ...series.map(({ id, position }) => curve(id, thinOut(position, LIMIT), context.palette.train(id), { width: 2, stepped: true })),
    ];
    const refocuses = night.activities.filter((activity) => activity.kind === 'focus');
    const change = (points: readonly Point[]): number => (points[points.length - 1]?.y ?? 0) - (points[0]?.y ?? 0);
    return {
      config: timeChart(datasets, {
        ...timeScales(context, span), y: valueScale('focuser, steps from the first frame', { digits: 0 }),
        ...(temperature.length === 0 ? {} : { temperature: valueScale('temperature, °C', { right: true, digits: 1 }) }),
      }, [uprights(refocuses.map((one) => ({ atMs: one.span.endMs, colour: one.train === undefined ? 'ink-soft' : context.palette.train(one.train) }))), directLabels(labels)]),
      heightPx: context.size === 'wide' ? 260 : 240,
      altText: `Focuser position and temperature. ${listed(series.map(({ id, position }) => `${id} moved by ${decimal(change(position), 0)} steps`))}${temperature.length === 0 ? '' : ` while the temperature changed by ${decimal(change(temperature), 1)} °C`}.`,
      table: null,
    };
  },
};
