/** The course of one star measurement over the night, both trains on one axis: common to the star charts. */
import {
  decimal,
  durationMs,
  listed,
  median,
  ownValue,
  type FrameStars,
  type JudgedFrame,
  type Night,
  type Train,
  lightsOf,
} from '../../model/index.js';
import { outsideMargin } from './annotations.js';
import { directLabels, type DirectLabel } from './marks.js';
import { timeScales, valueScale, type ValueScaleOptions } from './axes.js';
import type { Chart, ChartContext, ChartDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { strokes } from './series.js';
import { workSpan } from './sky-span.js';
import { marksText, starMarks } from './star-marks.js';

/** Number of frames at the end of the night at whose median the train's name is placed. */
const LAST_FRAMES = 5;

/** One measurement of a frame's stars. */
export interface StarMeasure {
  readonly id: string;
  readonly title: string;
  /** Title of the axis, with the unit. */
  readonly axis: string;
  /** Decimals of labels and figures. */
  readonly digits: number;
  readonly scale?: ValueScaleOptions;
  /** `null` if the frame does not state it. */
  readonly measure: (stars: FrameStars, frame: JudgedFrame, train: Train) => number | null;
}

/** A chart of one measurement: a stroke per exposure, in the train's colour. */
export function starCourse({ id, title, axis, digits, scale, measure }: StarMeasure): Chart {
  return {
    id,
    title,
    draw(night: Night, context: ChartContext) {
      const trains = night.gathered.trains
        .map((train, index) => ({ id: train.id, index, values: valuesOf(night, train, measure) }))
        .filter(({ values }) => values.length > 0);
      if (trains.length === 0)
        return { missing: night.stars === null ? 'no pixels were read' : 'no star was measured' };
      const span = workSpan(night);
      const labels = trains.map(
        ({ id: train, values }): DirectLabel => ({
          x: span.endMs,
          y: median(values.slice(-LAST_FRAMES).map(({ y }) => y)),
          text: train,
          colour: context.palette.train(train),
          outside: true,
        }),
      );
      const figures = trains.map(({ id: train, values }) => {
        const all = values.map(({ y }) => y);
        return (
          `${train} ${decimal(median(all), digits)} (${decimal(Math.min(...all), digits)} to ` +
          `${decimal(Math.max(...all), digits)})`
        );
      });
      return {
        config: timeChart(
          [...trains]
            .reverse()
            .map(({ id: train, index, values }) => strokes(train, values, context.palette.train(train), index)),
          { ...timeScales(context, span), y: valueScale(axis, { digits, ...scale }) },
          [...starMarks(night, context), directLabels(labels)],
          outsideMargin(labels.map(({ text }) => text)),
        ),
        heightPx: 200,
        altText: `${title}; median and range: ${listed(figures)}. ${marksText(night)}`,
        table: null,
      } satisfies ChartDrawing;
    },
  };
}

function valuesOf(night: Night, train: Train, measure: StarMeasure['measure']) {
  const measured = night.stars?.frames;
  if (measured === undefined) return [];
  return lightsOf(night, train.id).flatMap((frame) => {
    const stars = ownValue(measured, frame.id);
    const y = stars === undefined ? null : measure(stars, frame, train);
    return y === null || durationMs(frame.exposure) === 0 ? [] : [{ span: frame.exposure, y }];
  });
}
