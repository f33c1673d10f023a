import type { ChartDataset } from 'chart.js';
import { counted, duration, listed, median, sum, type Night, ownValue } from '../../model/index.js';
import { greatest } from '../figures/greatest.js';
import { sidesOf } from '../figures/sides.js';
import { directLabels, type DirectLabel } from './marks.js';
import { font, timeScales, valueScale } from './axes.js';
import { CHART_WIDTH, type Chart, type ChartContext, type ChartDrawing, type NoDrawing } from './chart.js';
import { ink } from './inks.js';
import { workSpan } from './sky-span.js';

interface TrainWaits {
  readonly id: string;
  /** As in the timeline, pilots are above the line and companions below it. */
  readonly above: boolean;
  readonly waits: readonly { readonly atMs: number; readonly seconds: number }[];
}

function waitsOf(night: Night): TrainWaits[] {
  const { above } = sidesOf(night.gathered.trains);
  return night.gathered.trains.map((train) => ({
    id: train.id,
    above: above.includes(train),
    waits: night.accounts.dithers.flatMap((cycle) => {
      const wait = ownValue(cycle.waits, train.id);
      return wait ? [{ atMs: cycle.beginMs, seconds: wait.waitMs / 1000 }] : [];
    }),
  }));
}

/** Width of the axis and margins of a chart. */
const AXIS_PX = 74;
/** Maximum number of bars in a chart. */
const MOST_BARS = 300;

/** The longest wait of each group of dithers, if there are more than bars. */
function longestOf(waits: TrainWaits['waits']): TrainWaits['waits'] {
  const size = Math.ceil(waits.length / MOST_BARS);
  if (size <= 1) return waits;
  return Array.from({ length: Math.ceil(waits.length / size) }, (_, group) =>
    greatest(waits.slice(group * size, (group + 1) * size), ({ seconds }) => seconds),
  ).flatMap((wait) => wait ?? []);
}

/** The next of 1, 2 or 5 times a power of ten. */
function niceStep(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return ([1, 2, 5].find((one) => one * power >= value) ?? 10) * power;
}

function longest(trains: readonly TrainWaits[]): number {
  return Math.max(1, ...trains.flatMap(({ waits }) => waits.map((wait) => wait.seconds)));
}

function saying({ id, waits }: TrainWaits): string {
  const ms = waits.map((wait) => wait.seconds * 1000);
  return `${id} ${duration(sum(ms))} in all, half of them below ${duration(ms.length === 0 ? 0 : median(ms))}`;
}

export const ditherWaits: Chart = {
  id: 'dither-waits',
  title: 'Waits at each dither',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    if (night.gathered.trains.length < 2) return { missing: 'a single train waits for nobody' };
    if (night.accounts.dithers.length === 0) return { missing: 'no dither is logged' };
    const span = workSpan(night);
    const trains = waitsOf(night);
    const [upper, lower] = [trains.filter(({ above }) => above), trains.filter(({ above }) => !above)];
    const step = niceStep(longest(trains) / 3);
    const reach = (side: readonly TrainWaits[]): number => Math.ceil((longest(side) * 1.1) / step) * step;
    const [top, bottom] = [reach(upper), -reach(lower)];

    const room = (CHART_WIDTH[context.size] - AXIS_PX) / Math.min(MOST_BARS, night.accounts.dithers.length);
    const bar = Math.max(1.5, Math.min(9, room * 0.55));
    const datasets = trains.map(({ id, above, waits }): ChartDataset => {
      const side = above ? upper : lower;
      return {
        label: id,
        data: longestOf(waits).map(({ atMs, seconds }) => ({ x: atMs, y: above ? seconds : -seconds })),
        backgroundColor: ink(context.palette.train(id)),
        barThickness: bar / side.length,
        grouped: side.length > 1,
        borderWidth: 0,
      };
    });
    const labels = trains.map(
      ({ id, above }): DirectLabel => ({
        x: span.startMs,
        y: above ? top : bottom,
        text: `${id} waited`,
        colour: context.palette.train(id),
        dx: 4,
        dy: above ? 12 : -11,
      }),
    );
    return {
      config: {
        type: 'bar',
        data: { datasets },
        marks: [directLabels(labels)],
        options: {
          font: font(),
          layout: { padding: { right: 6, top: 2 } },
          scales: {
            ...timeScales(context, span),
            y: valueScale('wait, seconds', { min: bottom, max: top, step, absolute: true, digits: 0 }),
          },
        },
      },
      heightPx: context.size === 'narrow' ? 240 : 260,
      altText: `Waits in ${counted(night.accounts.dithers.length, 'dither cycle')}: ${listed(trains.map(saying))}.`,
      table: null,
    };
  },
};
