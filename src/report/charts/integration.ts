import type { ChartDataset } from 'chart.js';
import { atKey, duration, listed, VERDICT_KINDS, type Night, type Total } from '../../model/index.js';
import { tokens } from '../design/tokens.js';
import { directLabels, type DirectLabel } from './marks.js';
import { font, TEXT_PX, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { barPatterns } from './marks.js';
import { ink } from './inks.js';

const HOUR = 3_600_000;

/** Sums over targets: one bar per filter and train. */
function byFilter(night: Night): Total[] {
  const bars = new Map<string, Total>();
  for (const total of night.accounts.totals) {
    const key = JSON.stringify([total.train, total.filter]);
    const old = bars.get(key);
    bars.set(
      key,
      old === undefined
        ? total
        : {
            ...total,
            ms: {
              taken: old.ms.taken + total.ms.taken,
              kept: old.ms.kept + total.ms.kept,
              doubtful: old.ms.doubtful + total.ms.doubtful,
              lost: old.ms.lost + total.ms.lost,
            },
          },
    );
  }
  const order = new Map(night.gathered.trains.map((train, index) => [train.id, index]));
  return [...bars.values()].sort((a, b) => atKey(order, a.train) - atKey(order, b.train));
}

export const integration: Chart = {
  id: 'integration',
  title: 'Integration per filter',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    const bars = byFilter(night);
    if (bars.length === 0) return { missing: 'no light was taken' };
    const shown = (text: string): string => ([...text].length > 14 ? `${[...text].slice(0, 13).join('')}…` : text);
    const datasets = VERDICT_KINDS.map(
      (verdict): ChartDataset => ({
        label: verdict,
        data: bars.map((bar) => bar.ms[verdict] / HOUR),
        stack: 'one',
        barThickness: context.size === 'paper' ? 14 : 18,
        borderWidth: 1,
        backgroundColor: bars.map((bar) => ink(context.palette.filter(bar.filter).colour)),
        borderColor: bars.map((bar) => ink(context.palette.filter(bar.filter).colour)),
      }),
    );
    const labels = bars.map(
      (bar, index): DirectLabel => ({
        x: bar.ms.taken / HOUR,
        y: index,
        text: duration(bar.ms.kept),
        colour: 'ink',
        dx: 7,
      }),
    );
    return {
      config: {
        type: 'bar',
        data: {
          labels: bars.map((bar) => `${bar.train}  ${shown(context.palette.filter(bar.filter).label)}`),
          datasets,
        },
        marks: [barPatterns(VERDICT_KINDS.map((verdict) => tokens().accounts[verdict])), directLabels(labels)],
        options: {
          indexAxis: 'y',
          font: font(),
          layout: { padding: { right: 70 } },
          scales: {
            x: { ...valueScale('integration, hours; figures: kept', { min: 0 }), position: 'bottom', stacked: true },
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
        'Integration per filter and train: ' +
        listed(
          bars.map(
            (bar) =>
              `${bar.train} ${context.palette.filter(bar.filter).label} ${duration(bar.ms.kept)} kept of ` +
              `${duration(bar.ms.taken)}`,
          ),
        ) +
        '.',
      table: null,
    };
  },
};
