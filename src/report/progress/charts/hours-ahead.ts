import { decimal, listed, type Outlook } from '../../../model/index.js';
import { outsideMargin } from '../../charts/annotations.js';
import { directLabels, type DirectLabel } from '../../charts/marks.js';
import { valueScale } from '../../charts/axes.js';
import type { ChartDrawing, ChartSize, NoDrawing } from '../../charts/chart.js';
import { timeChart } from '../../charts/frame.js';
import { curve, level, type Point } from '../../charts/series.js';
import { noonMs } from '../dates.js';
import { MOST_TARGETS, nameOf, type ProgressContext } from '../context.js';
import { besideText, dateScale } from './date-axis.js';

const EVERY = 3;

/**
 * Hours above the limit in darkness over the year ahead, per target. The Moon is ignored: it would come and go twelve
 * times.
 */
export function hoursAhead(
  { targets, assumptions }: Outlook,
  size: ChartSize,
  colourOf: ProgressContext['colourOf'],
): ChartDrawing | NoDrawing {
  const drawn = targets.slice(0, MOST_TARGETS);
  const first = drawn[0]?.nights[0];
  const last = drawn[0]?.nights.at(-1);
  if (!first || !last) return { missing: 'no target with goals and known coordinates is unfinished' };
  const span = { startMs: noonMs(first.date), endMs: noonMs(last.date) };
  const curves = drawn.map(({ name, nights }) => {
    const sampled = nights.filter((_, i) => i % EVERY === 0);
    const up = sampled.map(({ date, up: y }): Point => ({ x: noonMs(date), y }));
    return { name: nameOf(name), colour: colourOf(name), up, most: Math.max(...up.map((point) => point.y)) };
  });
  const labels = curves.flatMap(({ name, colour, up }): DirectLabel[] =>
    up.slice(-1).map(({ x, y }) => ({ x, y, text: besideText(name, size), colour, outside: true })),
  );
  const margin = outsideMargin(labels.map((label) => label.text));
  return {
    config: timeChart(
      [
        level('worthwhile', assumptions.worthHours, span.startMs, span.endMs, 'ink-soft'),
        ...curves.map(({ name, colour, up }) => curve(name, up, colour, { width: 2.2 })),
      ],
      {
        x: dateScale(span.startMs, span.endMs, size, margin),
        y: valueScale('hours per night', { min: 0, suggestedMax: 12 }),
      },
      [directLabels(labels)],
      margin,
    ),
    heightPx: size === 'narrow' ? 240 : 280,
    altText:
      'Hours above the limit in darkness over a year, per night: ' +
      `${listed(curves.map(({ name, most }) => `${name} up to ${decimal(most, 1)} h`))}.`,
    table: null,
  };
}
