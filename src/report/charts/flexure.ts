import { decimal, listed, type Night, type PairPointing } from '../../model/index.js';
import { directLabels, type DirectLabel } from './marks.js';
import { timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { refocusMarks } from './refocuses.js';
import { curve, thinOut, type Point } from './series.js';
import { workSpan } from './sky-span.js';

/** Maximum number of points of a line. */
const MOST_POINTS = 160;

/** Along each axis of the companion's sensor, px from its start; a flip interrupts the line. */
function lines({ flexure }: PairPointing, axis: 'x' | 'y'): readonly (readonly Point[])[] {
  const course = flexure?.course ?? [];
  return [false, true].flatMap((side) => {
    const there = course.filter(({ flipped }) => flipped === side);
    const first = there[0];
    if (!first) return [];
    return [
      thinOut(
        there.map((p) => ({ x: p.midMs, y: p[axis] - first[axis] })),
        MOST_POINTS,
      ),
    ];
  });
}

function rateText({ trains: [pilot, companion], target, flexure }: PairPointing): string {
  return `${companion} against ${pilot} on ${target}: ${decimal(flexure?.overall.arcsecPerHour, 1)}″ per hour`;
}

export const flexure: Chart = {
  id: 'flexure',
  title: 'The companion’s drift against the pilot',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    const pairs = (night.stars?.pairs ?? []).filter((pair) => pair.flexure !== null);
    if (pairs.length === 0) return { missing: 'no two trains have enough frames of one field taken together' };
    const labels: DirectLabel[] = [];
    const curves = pairs.flatMap((pair) => {
      const [, companion] = pair.trains;
      const colour = context.palette.train(companion);
      return (['x', 'y'] as const).flatMap((axis) => {
        const own = lines(pair, axis);
        const last = own.at(-1)?.at(-1);
        if (last) labels.push({ x: last.x, y: last.y, text: `${companion} ${axis}`, colour, align: 'right', dy: -9 });
        return own.map((points) =>
          curve(`${companion} ${axis}`, points, colour, { width: 2, style: axis === 'x' ? 'plain' : 'dashed' }),
        );
      });
    });
    return {
      config: timeChart(
        curves,
        { ...timeScales(context, workSpan(night)), y: valueScale('px of the companion, from its first frame') },
        [refocusMarks(night, context), directLabels(labels)],
      ),
      heightPx: context.size === 'narrow' ? 240 : 260,
      altText: `Drift of the companion against the pilot, on both sensor axes. ${listed(pairs.map(rateText))}.`,
      table: null,
    };
  },
};
