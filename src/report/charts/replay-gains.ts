import { isReplayed, listed, signedDuration, type Night, type WhatIf } from '../../model/index.js';
import { gainRange, gainUnit } from '../text/gain.js';
import { cutToWidth } from '../timeline/scale.js';
import { directLabels, type DirectLabel } from './marks.js';
import { font, TEXT_PX, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { ink } from './inks.js';
import { whiskers } from './marks.js';

const NAME_PX = { wide: 300, paper: 240, narrow: 130 } as const;

export const replayGains: Chart = {
  id: 'replay-gains',
  title: 'Kept integration gained by other rules',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    if (!isReplayed(night.replay))
      return {
        missing: night.replay === null ? 'the night was not replayed' : `the night lacks ${night.replay.missing}`,
      };
    const { best, whatIfs } = night.replay;
    // Dither counts have a chart of their own.
    const shown: readonly WhatIf[] = [
      ...(best ? [{ ...best, title: best.short }] : []),
      ...whatIfs.filter((w) => w.group !== 'dither-every'),
    ];
    if (shown.length === 0) return { missing: 'with one train there is nothing to change but the dithers' };
    const together = night.gathered.trains.length > 1 ? ' of all trains together' : '';
    const unit = gainUnit(shown.map(({ gain }) => gain));
    const values = shown.map(({ gain }) => gain.meanMs / unit.ms);
    // Figures are right of bar and whisker, clear of both.
    const labels = shown.map(
      ({ gain }, index): DirectLabel => ({
        x: Math.max(0, gain.meanMs, gain.highMs) / unit.ms,
        y: index,
        text: signedDuration(gain.meanMs),
        colour: gain.meanMs < 0 && signedDuration(gain.meanMs) !== signedDuration(0) ? 'loss' : 'ink',
        dx: 7,
      }),
    );
    const colours = values.map((value) => ink(value < 0 ? 'loss' : 'account-kept'));
    return {
      config: {
        type: 'bar',
        data: {
          labels: shown.map(({ title, short }) =>
            cutToWidth(context.size === 'narrow' ? short : title, NAME_PX[context.size], TEXT_PX),
          ),
          datasets: [{ label: 'gain', data: values, barThickness: 13, backgroundColor: colours, borderWidth: 0 }],
        },
        marks: [
          whiskers(
            shown.map(({ gain }) => ({ low: gain.lowMs / unit.ms, high: gain.highMs / unit.ms })),
            'x',
          ),
          directLabels(labels),
        ],
        options: {
          indexAxis: 'y',
          font: font(),
          layout: { padding: { right: 54 } },
          scales: {
            x: {
              ...valueScale(
                context.size === 'narrow'
                  ? `gain, ${unit.name}`
                  : `gain, ${unit.name}${together}; whiskers: 10 to 90 % of the runs`,
                {
                  digits: unit.digits,
                  suggestedMin: (Math.min(0, ...shown.map(({ gain }) => gain.lowMs)) / unit.ms) * 1.04,
                  suggestedMax: Math.max(0, ...shown.map(({ gain }) => gain.highMs)) / unit.ms,
                },
              ),
              position: 'bottom',
            },
            y: {
              grid: { display: false },
              border: { color: ink('rule-strong') },
              ticks: { color: ink('ink'), font: font(), autoSkip: false },
            },
          },
        },
      },
      heightPx: 52 + shown.length * (TEXT_PX + 10),
      altText: `Gain in kept integration against the night as it was: ${listed(
        [...shown]
          .sort((a, b) => b.gain.meanMs - a.gain.meanMs)
          .slice(0, 4)
          .map((w) => `${w.title} ${signedDuration(w.gain.meanMs)} (${gainRange(w.gain)})`),
      )}.`,
      table: null,
    };
  },
};
