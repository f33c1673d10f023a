import { isReplayed, listed, signedDuration, type Night } from '../../model/index.js';
import { font, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { ink } from './inks.js';
import { gainUnit } from '../text/gain.js';
import { whiskers } from './marks.js';

export const ditherCounts: Chart = {
  id: 'dither-counts',
  title: 'Gain by frames between two dithers',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    if (!isReplayed(night.replay))
      return {
        missing: night.replay === null ? 'the night was not replayed' : `the night lacks ${night.replay.missing}`,
      };
    const counts = night.replay.whatIfs
      .filter((w) => w.group === 'dither-every')
      .map((w, index) => ({ frames: index + 1, gain: w.gain }));
    const unit = gainUnit(counts.map(({ gain }) => gain));
    const values = counts.map(({ gain }) => gain.meanMs / unit.ms);
    return {
      config: {
        type: 'bar',
        data: {
          labels: counts.map(({ frames }) => String(frames)),
          datasets: [
            {
              label: 'gain',
              data: values,
              barThickness: context.size === 'narrow' ? 15 : 30,
              backgroundColor: values.map((value) => ink(value < 0 ? 'loss' : 'account-kept')),
              borderWidth: 0,
            },
          ],
        },
        marks: [
          whiskers(
            counts.map(({ gain }) => ({ low: gain.lowMs / unit.ms, high: gain.highMs / unit.ms })),
            'y',
          ),
        ],
        options: {
          font: font(),
          layout: { padding: { right: 6, top: 2 } },
          scales: {
            x: {
              grid: { display: false },
              border: { color: ink('rule-strong') },
              ticks: { color: ink('ink'), font: font(), autoSkip: false, maxRotation: 0 },
              title: {
                display: true,
                text: 'frames between two dithers',
                align: 'start',
                color: ink('ink-soft'),
                font: font(),
                padding: 2,
              },
            },
            y: valueScale(`gain, ${unit.name}`, {
              digits: unit.digits,
              suggestedMin: Math.min(0, ...counts.map(({ gain }) => gain.lowMs)) / unit.ms,
              suggestedMax: Math.max(0, ...counts.map(({ gain }) => gain.highMs)) / unit.ms,
            }),
          },
        },
      },
      heightPx: context.size === 'narrow' ? 220 : 230,
      altText:
        'Gain in kept integration by the number of frames between dithers: ' +
        `${listed(counts.map(({ frames, gain }) => `${frames}: ${signedDuration(gain.meanMs)}`))}.`,
      table: null,
    };
  },
};
