import type { Outlook } from '../../../model/index.js';
import { directLabels, outsideMargin, type DirectLabel } from '../../charts/annotations.js';
import { valueScale } from '../../charts/axes.js';
import type { ChartDrawing, ChartSize, NoDrawing } from '../../charts/chart.js';
import { timeChart } from '../../charts/frame.js';
import { curve, level, type Point } from '../../charts/series.js';
import { decimal, listed } from '../../text/number.js';
import { noonMs } from '../dates.js';
import { nameOf } from '../context.js';
import { dateScale } from './date-axis.js';

/** More curves than this cannot be told apart. */
const MOST_TARGETS = 6;
const COLOURS = ['train-1', 'train-2', 'train-3', 'train-4', 'ink', 'ink-soft'] as const;
const EVERY = 3;

/** Hours above the limit in darkness over the year ahead, per target; thin: without the Moon. */
export function hoursAhead({ targets, assumptions }: Outlook, size: ChartSize): ChartDrawing | NoDrawing {
  const drawn = targets.slice(0, MOST_TARGETS);
  const first = drawn[0]?.nights[0];
  const last = drawn[0]?.nights.at(-1);
  if (!first || !last) return { missing: 'no target with goals and a known place is unfinished' };
  const span = { startMs: noonMs(first.date), endMs: noonMs(last.date) };
  const curves = drawn.map(({ name, nights }, index) => {
    const sampled = nights.filter((_, i) => i % EVERY === 0);
    const up = sampled.map(({ date, up: y }): Point => ({ x: noonMs(date), y }));
    const moonless = sampled.map(({ date, moonless: y }): Point => ({ x: noonMs(date), y }));
    const best = up.reduce((a, b) => (b.y > a.y ? b : a), up[0] ?? { x: 0, y: 0 });
    return { name: nameOf(name), colour: COLOURS[index] ?? 'ink', up, moonless, best };
  });
  const labels = curves.map(({ name, colour, best }): DirectLabel => ({ x: best.x, y: best.y, text: name, colour, align: 'center', dy: -9 }));
  return {
    config: timeChart(
      [
        level('worth while', assumptions.worthHours, span.startMs, span.endMs, 'ink-soft'),
        ...curves.map(({ name, colour, moonless }) => curve(`${name}, moonless`, moonless, colour, { width: 0.8 })),
        ...curves.map(({ name, colour, up }) => curve(name, up, colour, { width: 2.2 })),
      ],
      { x: dateScale(span.startMs, span.endMs, size), y: valueScale('hours a night', { min: 0, suggestedMax: 12 }) },
      [directLabels(labels)],
      outsideMargin([]),
    ),
    heightPx: size === 'wide' ? 280 : 240,
    altText: `Hours above the limit in darkness over a year, per night: ${listed(curves.map(({ name, best }) => `${name} up to ${decimal(best.y, 1)} h`))}. Thin curves: with the Moon below the horizon.`,
    table: null,
  };
}
