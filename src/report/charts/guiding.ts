import { median, type JudgedFrame, type Night } from '../../model/index.js';
import { counted, decimal, listed } from '../text/number.js';
import { directLabels, type DirectLabel } from './annotations.js';
import { timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { level, strokes } from './series.js';
import { workSpan } from './sky-span.js';

const rms = (frame: JudgedFrame) => (frame.guiding === null ? [] : [{ span: frame.exposure, y: frame.guiding.totalRmsArcsec }]);

export const guiding: Chart = {
  id: 'guiding',
  title: 'Guiding during each frame',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    if (night.guiding === null) return { missing: 'there are no guiding samples' };
    const span = workSpan(night);
    const trains = night.trains.map((train, index) => {
      const points = night.frames.filter((frame) => frame.train === train.id).flatMap(rms);
      const limit = train.pixelScaleArcsec === undefined ? null : train.pixelScaleArcsec * night.rules.roughGuidingPixels;
      return { id: train.id, index, points, limit, above: limit === null ? 0 : points.filter((p) => p.y > limit).length, middle: median(points.map((p) => p.y)) };
    });
    const values = trains.flatMap(({ points }) => points.map((p) => p.y));
    if (values.length === 0) return { missing: 'no guiding sample falls into an exposure' };
    const reach = Math.max(...values, ...trains.map(({ limit }) => (limit !== null && limit < 3 * Math.max(...values) ? limit : 0))) ;
    const top = Math.ceil(reach * 2.2) / 2;
    const pixels = night.rules.roughGuidingPixels === 1 ? '1 px' : `${decimal(night.rules.roughGuidingPixels, 1)} px`;
    const labels = trains.flatMap(({ id, limit }): DirectLabel[] => (limit === null || limit > reach ? [] : [
      { x: span.startMs, y: limit, text: `${id}: limit ${pixels} = ${decimal(limit, 2)}″`, colour: context.palette.train(id), dy: -9 },
    ]));
    const datasets = [
      ...trains.flatMap(({ id, limit }) => (limit === null || limit > reach ? [] : [level(`limit of ${id}`, limit, span.startMs, span.endMs, context.palette.train(id))])),
      ...[...trains].reverse().map(({ id, index, points }) => strokes(id, points, context.palette.train(id), index)),
    ];
    return {
      config: timeChart(datasets, { ...timeScales(context, span), y: valueScale('RMS over the exposure, arcsec', { min: 0, max: top, step: top > 4 ? 1 : 0.5, digits: 1 }) }, [directLabels(labels)]),
      heightPx: context.size === 'wide' ? 300 : 260,
      altText: `Guiding error of each frame. ${listed(trains.map(({ id, middle, above, limit }) => `${id}: half of the frames below ${decimal(middle, 2)}″, ${limit === null ? 'limit not known' : `${counted(above, 'frame')} above the limit of ${decimal(limit, 2)}″`}`))}.`,
      table: {
        caption: 'Guiding by train: RMS about zero error over each exposure, in arcseconds and in the train’s own pixels',
        columns: [
          { label: 'Train', numeric: false }, { label: 'Frames', numeric: true }, { label: 'Median ″', numeric: true }, { label: 'Worst ″', numeric: true },
          { label: 'Median px', numeric: true }, { label: 'Worst px', numeric: true }, { label: 'Limit ″', numeric: true }, { label: 'Frames above', numeric: true },
        ],
        rows: trains.map(({ id, points, middle, limit, above }) => {
          const worst = points.length === 0 ? null : Math.max(...points.map((p) => p.y));
          const scale = night.trains.find((train) => train.id === id)?.pixelScaleArcsec;
          const inPixels = (value: number | null): string => (value === null || scale === undefined ? decimal(null, 2) : decimal(value / scale, 2));
          return [id, String(points.length), decimal(middle, 2), decimal(worst, 2), inPixels(middle), inPixels(worst), decimal(limit, 2), limit === null ? decimal(null, 0) : String(above)];
        }),
      },
    };
  },
};
