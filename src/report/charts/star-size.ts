import { median, type Night } from '../../model/index.js';
import { decimal, listed } from '../text/number.js';
import { directLabels, outsideMargin, uprights, type DirectLabel } from './annotations.js';
import { timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { strokes } from './series.js';
import { workSpan } from './sky-span.js';

export const starSize: Chart = {
  id: 'star-size',
  title: 'Star size of each frame',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    const trains = night.trains.map((train, index) => ({
      id: train.id, index,
      points: night.frames.filter((frame) => frame.train === train.id).flatMap((frame) => (frame.header?.starSize === undefined ? [] : [{ span: frame.exposure, y: frame.header.starSize }])),
    })).filter(({ points }) => points.length > 0);
    if (trains.length === 0) return { missing: 'no header carries a star size' };
    const span = workSpan(night);
    const refocuses = night.activities.filter((activity) => activity.kind === 'focus');
    const labels = trains.flatMap(({ id, points }): DirectLabel[] => {
      const last = points[points.length - 1];
      return last ? [{ x: last.span.endMs, y: median(points.slice(-5).map((p) => p.y)), text: id, colour: context.palette.train(id), outside: true }] : [];
    });
    const middles = trains.map(({ id, points }) => `${id} ${decimal(median(points.map((p) => p.y)), 2)}`);
    return {
      config: timeChart(
        [...trains].reverse().map(({ id, index, points }) => strokes(id, points, context.palette.train(id), index)),
        { ...timeScales(context, span), y: valueScale('star size, px as the header has it', { digits: 1 }) },
        [uprights(refocuses.map((one) => ({ atMs: one.span.endMs, colour: one.train === undefined ? 'ink-soft' : context.palette.train(one.train) }))), directLabels(labels)],
        outsideMargin(labels.map((label) => label.text)),
      ),
      heightPx: context.size === 'wide' ? 260 : 240,
      altText: `Star size of each frame in pixels; medians: ${listed(middles)}. ${refocuses.length === 0 ? 'No refocus is logged.' : `Upright lines mark ${refocuses.length === 1 ? 'the refocus' : `${refocuses.length} refocuses`}.`}`,
      table: null,
    };
  },
};
