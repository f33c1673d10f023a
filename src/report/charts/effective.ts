import type { ChartDataset } from 'chart.js';
import {
  atKey,
  duration,
  durationRange,
  itemAt,
  listed,
  weighedTotals,
  type Night,
  type WeighedTotal,
} from '../../model/index.js';
import type { PatternName } from '../design/tokens.js';
import { cutToWidth } from '../timeline/scale.js';
import { directLabels, type DirectLabel } from './marks.js';
import { font, TEXT_PX, valueScale } from './axes.js';
import { barPatterns } from './marks.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { ink } from './inks.js';

const HOUR = 3_600_000;

/** What kept time was worth, in ms: effective, lost to moonlight, and lost to everything else. */
interface Part {
  readonly label: string;
  readonly pattern: PatternName;
  readonly of: (total: WeighedTotal) => number;
  readonly colour: (total: WeighedTotal, context: ChartContext) => string;
}

const filterColour = ({ filter }: WeighedTotal, context: ChartContext): string => context.palette.filter(filter).colour;

const PARTS: readonly Part[] = [
  { label: 'effective', pattern: 'solid', of: ({ worth }) => worth.effectiveMs, colour: filterColour },
  {
    label: 'lost to the Moon',
    pattern: 'stripes',
    of: ({ worth }) => Math.max(0, worth.moonLossMs),
    colour: () => 'moon',
  },
  {
    label: 'lost to air and read noise',
    pattern: 'dots',
    of: ({ ms, worth }) => Math.max(0, ms.kept - worth.effectiveMs - worth.moonLossMs),
    colour: filterColour,
  },
];

export const effective: Chart = {
  id: 'effective',
  title: 'Kept and effective integration',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    const order = new Map(night.gathered.trains.map((train, index) => [train.id, index]));
    const bars = weighedTotals(night).sort((a, b) => atKey(order, a.train) - atKey(order, b.train));
    if (bars.length === 0)
      return {
        missing:
          night.gathered.site === null
            ? 'the site is not known'
            : 'nothing was kept of a target with known ' + 'coordinates',
      };
    const severalTargets = new Set(bars.map((bar) => bar.target)).size > 1;
    const name = (bar: WeighedTotal): string => {
      const target = severalTargets ? `${cutToWidth(bar.target, context.size === 'narrow' ? 60 : 110, TEXT_PX)}  ` : '';
      return `${target}${bar.train}  ${cutToWidth(context.palette.filter(bar.filter).label, 100, TEXT_PX)}`;
    };
    const datasets = PARTS.map(
      ({ label, of, colour }): ChartDataset => ({
        label,
        data: bars.map((bar) => of(bar) / HOUR),
        stack: 'one',
        barThickness: context.size === 'paper' ? 14 : 18,
        borderWidth: 1,
        backgroundColor: bars.map((bar) => ink(colour(bar, context))),
        borderColor: bars.map((bar) => ink(colour(bar, context))),
      }),
    );
    const lengths = bars.map((bar) => PARTS.reduce((sum, { of }) => sum + of(bar), 0));
    const labels = bars.map(
      (bar, index): DirectLabel => ({
        x: itemAt(lengths, index) / HOUR,
        y: index,
        text: durationRange(bar.worth.lowMs, bar.worth.highMs),
        colour: 'ink',
        dx: 7,
      }),
    );
    const title =
      context.size === 'narrow'
        ? 'hours; solid: effective, hatched: lost'
        : 'hours; solid: effective, hatched: lost to air and read noise, or to moonlight in the Moon’s colour';
    return {
      config: {
        type: 'bar',
        data: { labels: bars.map(name), datasets },
        marks: [barPatterns(PARTS.map(({ pattern }) => pattern)), directLabels(labels)],
        options: {
          indexAxis: 'y',
          font: font(),
          layout: { padding: { right: 96 } },
          scales: {
            x: { ...valueScale(title, { min: 0 }), position: 'bottom', stacked: true },
            y: {
              stacked: true,
              grid: { display: false },
              border: { color: ink('rule-strong') },
              ticks: { color: ink('ink'), font: font(), autoSkip: false },
            },
          },
        },
      },
      heightPx: 52 + bars.length * (TEXT_PX + 15),
      altText:
        'Effective time of what was kept: ' +
        listed(
          bars.map(
            (bar) =>
              `${bar.train} ${context.palette.filter(bar.filter).label} ` +
              `${durationRange(bar.worth.lowMs, bar.worth.highMs)} from ${duration(bar.ms.kept)}`,
          ),
        ) +
        '.',
      table: null,
    };
  },
};
