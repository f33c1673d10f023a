import {
  counted,
  decimal,
  listed,
  median,
  UNKNOWN,
  type Interval,
  type Night,
  type Train,
  lightsOf,
} from '../../model/index.js';
import { directLabels, type DirectLabel } from './marks.js';
import { timeScales, valueScale } from './axes.js';
import {
  figureColumn,
  wordColumn,
  type Chart,
  type ChartContext,
  type ChartDrawing,
  type ChartTable,
  type NoDrawing,
} from './chart.js';
import { timeChart } from './frame.js';
import { level, strokes } from './series.js';
import { workSpan } from './sky-span.js';

/** The guiding errors of one train's exposures, arcseconds. */
interface TrainGuiding {
  readonly id: string;
  readonly index: number;
  readonly values: readonly { readonly span: Interval; readonly y: number }[];
  /** `null` if the pixel scale is unknown. */
  readonly limit: number | null;
  readonly above: number;
  readonly median: number;
  readonly scale: number | undefined;
}

function trainGuiding(night: Night, { id, pixelScaleArcsec }: Train, index: number): TrainGuiding {
  const values = lightsOf(night, id).flatMap((frame) =>
    frame.guiding === null ? [] : [{ span: frame.exposure, y: frame.guiding.totalRmsArcsec }],
  );
  const limit = pixelScaleArcsec === undefined ? null : pixelScaleArcsec * night.gathered.rules.roughGuidingPixels;
  return {
    id,
    index,
    values,
    limit,
    scale: pixelScaleArcsec,
    median: median(values.map(({ y }) => y)),
    above: limit === null ? 0 : values.filter(({ y }) => y > limit).length,
  };
}

function tableOf(trains: readonly TrainGuiding[]): ChartTable {
  return {
    caption: 'Guiding by train: RMS about zero error over each exposure, in arcseconds and in the train’s own pixels',
    columns: [
      wordColumn('Train'),
      ...['Frames', 'Median ″', 'Worst ″', 'Median px', 'Worst px', 'Limit ″', 'Frames above'].map(figureColumn),
    ],
    rows: trains.map(({ id, values, limit, above, median: middle, scale }) => {
      const worst = Math.max(...values.map(({ y }) => y));
      const inPixels = (value: number): string => (scale === undefined ? UNKNOWN : decimal(value / scale, 2));
      return [
        id,
        String(values.length),
        decimal(middle, 2),
        decimal(worst, 2),
        inPixels(middle),
        inPixels(worst),
        decimal(limit, 2),
        limit === null ? UNKNOWN : String(above),
      ];
    }),
  };
}

function saying({ id, limit, above, median: middle }: TrainGuiding): string {
  const rule =
    limit === null ? 'limit not known' : `${counted(above, 'frame')} above the limit of ${decimal(limit, 2)}″`;
  return `${id}: half of the frames below ${decimal(middle, 2)}″, ${rule}`;
}

export const guiding: Chart = {
  id: 'guiding',
  title: 'Guiding during each frame',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    if (night.gathered.guiding === null) return { missing: 'there are no guiding samples' };
    const trains = night.gathered.trains.map((train, index) => trainGuiding(night, train, index));
    const worst = Math.max(...trains.flatMap(({ values }) => values.map(({ y }) => y)));
    if (!Number.isFinite(worst)) return { missing: 'no guiding sample falls within an exposure' };

    // A limit far above everything would flatten the values; it is only given in the table.
    const limits = trains.flatMap(({ id, limit }) =>
      limit === null || limit > 3 * worst ? [] : [{ id, limit, colour: context.palette.train(id) }],
    );
    const top = Math.ceil(Math.max(worst, ...limits.map(({ limit }) => limit)) * 2.2) / 2;
    const span = workSpan(night);
    const pixels =
      `${decimal(night.gathered.rules.roughGuidingPixels, night.gathered.rules.roughGuidingPixels === 1 ? 0 : 1)} ` +
      'px';
    // The lowest limit is labelled below its line, the others above: labels of adjacent limits stay apart.
    const lowest = Math.min(...limits.map(({ limit }) => limit));
    const labels = limits.map(
      ({ id, limit, colour }): DirectLabel => ({
        x: span.startMs,
        y: limit,
        text: `${id}: limit ${pixels} = ${decimal(limit, 2)}″`,
        colour,
        dy: limits.length > 1 && limit === lowest ? 10 : -9,
      }),
    );
    const datasets = [
      ...limits.map(({ id, limit, colour }) => level(`limit of ${id}`, limit, span.startMs, span.endMs, colour)),
      // The first data set is drawn on top: the last train's thin strokes over the first one's bold ones.
      ...[...trains].reverse().map(({ id, index, values }) => strokes(id, values, context.palette.train(id), index)),
    ];
    const scales = {
      ...timeScales(context, span),
      y: valueScale('RMS over the exposure, arcsec', { min: 0, max: top, step: top > 4 ? 1 : 0.5, digits: 1 }),
    };
    return {
      config: timeChart(datasets, scales, [directLabels(labels)]),
      heightPx: context.size === 'narrow' ? 260 : 300,
      altText: `Guiding error of each frame. ${listed(trains.map(saying))}.`,
      table: tableOf(trains),
    };
  },
};
