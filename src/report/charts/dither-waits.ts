import type { ChartDataset } from 'chart.js';
import { median, type Night } from '../../model/index.js';
import { duration } from '../text/duration.js';
import { counted, listed } from '../text/number.js';
import { directLabels, type DirectLabel } from './annotations.js';
import { font, timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { ink } from './inks.js';
import type { Point } from './series.js';
import { workSpan } from './sky-span.js';

/** The next of 1, 2 or 5 times a power of ten. */
function niceStep(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return ([1, 2, 5].find((one) => one * power >= value) ?? 10) * power;
}

export const ditherWaits: Chart = {
  id: 'dither-waits',
  title: 'Waits at each dither',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    if (night.trains.length < 2) return { missing: 'one train has nobody to wait for' };
    if (night.dithers.length === 0) return { missing: 'no dither is logged' };
    const span = workSpan(night);
    const pilots = new Set(night.trains.filter((train) => train.role === 'pilot').map((train) => train.id));
    const trains = night.trains.map(({ id }, index) => {
      // As in the timeline, pilots stand above the line and companions below it.
      const sign = pilots.has(id) || (pilots.size === 0 && index === 0) ? 1 : -1;
      const waits = night.dithers.flatMap((cycle) => {
        const wait = cycle.waits[id];
        return wait ? [{ x: cycle.beginMs, ms: wait.waitMs }] : [];
      });
      return { id, sign, waits, totalMs: waits.reduce((sum, wait) => sum + wait.ms, 0), middle: median(waits.map((wait) => wait.ms)) };
    });
    const longest = (of: number): number => Math.max(1, ...trains.filter(({ sign }) => sign === of).flatMap(({ waits }) => waits.map((wait) => wait.ms / 1000)));
    const step = niceStep(Math.max(longest(1), longest(-1)) / 3);
    const [up, down] = [Math.ceil((longest(1) * 1.1) / step) * step, Math.ceil((longest(-1) * 1.1) / step) * step];
    const companions = trains.filter(({ sign }) => sign < 0).length;
    const bar = Math.max(1.5, Math.min(9, ((context.size === 'wide' ? 860 : 310) / night.dithers.length) * 0.55));
    const datasets = trains.map(({ id, sign, waits }): ChartDataset<'bar', Point[]> => ({
      label: id, data: waits.map((wait) => ({ x: wait.x, y: (sign * wait.ms) / 1000 })), backgroundColor: ink(context.palette.train(id)),
      barThickness: sign < 0 && companions > 1 ? bar / companions : bar, grouped: sign < 0 && companions > 1, borderWidth: 0,
    }));
    const labels = trains.map(({ id, sign }): DirectLabel => ({ x: span.startMs, y: sign < 0 ? -down : up, text: `${id} waited`, colour: context.palette.train(id), dx: 4, dy: sign < 0 ? -11 : 12 }));
    return {
      config: {
        type: 'bar', data: { datasets }, plugins: [directLabels(labels)],
        options: {
          font: font(), layout: { padding: { right: 6, top: 2 } }, plugins: { legend: { display: false }, tooltip: { enabled: false } },
          scales: { ...timeScales(context, span), y: valueScale('wait, seconds', { min: -down, max: up, step, absolute: true, digits: 0 }) },
        },
      },
      heightPx: context.size === 'wide' ? 260 : 240,
      altText: `Waits in ${counted(night.dithers.length, 'dither cycle')}: ${listed(trains.map(({ id, totalMs, middle }) => `${id} ${duration(totalMs)} in all, half of them below ${duration(Number.isNaN(middle) ? 0 : middle)}`))}.`,
      table: null,
    };
  },
};
