import type { Night, SkyPosition } from '../../model/index.js';
import { decimal, listed } from '../text/number.js';
import { backdrop, directLabels, type DirectLabel } from './annotations.js';
import { timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { curve, type Point } from './series.js';
import { skyShades, skySpan } from './sky-span.js';

/** The curve where `keep` holds, broken elsewhere. */
function part(points: readonly SkyPosition[], keep: (p: SkyPosition) => boolean): Point[] {
  return points.map((p) => ({ x: p.atMs, y: keep(p) ? p.moonSeparationDeg : Number.NaN }));
}

export const separation: Chart = {
  id: 'separation',
  title: 'Distance of the Moon from the targets',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    if (night.curves.length === 0) return { missing: night.site === null ? 'the site is not known' : 'the place of no target is known' };
    const span = skySpan(night);
    const curves = night.curves.map((one) => ({ target: one.target, points: one.points.filter((p) => p.atMs >= span.startMs && p.atMs <= span.endMs) }));
    const labels = curves.flatMap(({ target, points }): DirectLabel[] => {
      const middle = points[Math.floor(points.length / 2)];
      return middle ? [{ x: middle.atMs, y: middle.moonSeparationDeg, text: target, colour: 'ink', align: 'center', dy: -11 }] : [];
    });
    const said = curves.flatMap(({ target, points }) => {
      const up = points.filter((p) => p.moonAltitudeDeg > 0).map((p) => p.moonSeparationDeg);
      return up.length === 0 ? [`${target}: the Moon was down`] : [`${target}: ${decimal(Math.min(...up), 0)}° to ${decimal(Math.max(...up), 0)}° while the Moon was up`];
    });
    const datasets = curves.flatMap(({ target, points }) => [
      curve(`${target}, Moon up`, part(points, (p) => p.moonAltitudeDeg > 0), 'moon', { width: 3 }),
      curve(`${target}, Moon down`, part(points, (p) => p.moonAltitudeDeg <= 0), 'ink-soft', { width: 1.4, style: 'dotted' }),
    ]);
    return {
      config: timeChart(datasets, { ...timeScales(context, span), y: valueScale('distance, degrees', { min: 0, max: 180, step: 30 }) }, [backdrop(skyShades(night, span)), directLabels(labels)]),
      heightPx: context.size === 'wide' ? 230 : 230,
      altText: `Angle between Moon and target over the night, solid while the Moon was up. ${listed(said)}.`,
      table: null,
    };
  },
};
