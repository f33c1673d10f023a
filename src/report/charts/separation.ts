import { contains, decimal, listed, type Night, type SkyPosition } from '../../model/index.js';
import { imagedSpans } from '../figures/imaged.js';
import { cutToWidth } from '../timeline/scale.js';
import { outsideMargin } from './annotations.js';
import { backdrop, directLabels, type DirectLabel } from './marks.js';
import { TEXT_PX, timeScales, valueScale } from './axes.js';
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
    if (night.sky.curves.length === 0)
      return {
        missing: context.isShared
          ? 'a shared edition leaves out the positions of Moon and targets'
          : night.gathered.site === null
            ? 'the site is not known'
            : 'no target’s coordinates are known',
      };
    const span = skySpan(night);
    const curves = night.sky.curves.map((one) => ({
      target: one.target,
      points: one.points.filter((p) => p.atMs >= span.startMs && p.atMs <= span.endMs),
    }));
    const shown = (target: string): string => cutToWidth(target, context.size === 'narrow' ? 80 : 150, TEXT_PX);
    const labels = curves.flatMap(({ target, points }): DirectLabel[] => {
      const last = points[points.length - 1];
      return last
        ? [{ x: last.atMs, y: last.moonSeparationDeg, text: shown(target), colour: 'ink', outside: true }]
        : [];
    });
    const values = curves.flatMap(({ points }) => points.map((p) => p.moonSeparationDeg));
    const [low, high] = [
      Math.floor((Math.min(...values) - 8) / 15) * 15,
      Math.ceil((Math.max(...values) + 8) / 15) * 15,
    ];
    const said = curves.flatMap(({ target, points }) => {
      const up = points.filter((p) => p.moonAltitudeDeg > 0).map((p) => p.moonSeparationDeg);
      return up.length === 0
        ? [`${target}: the Moon was down`]
        : [`${target}: ${decimal(Math.min(...up), 0)}° to ${decimal(Math.max(...up), 0)}° while the Moon was up`];
    });
    const imaged = new Map(curves.map(({ target }) => [target, imagedSpans(night, target)]));
    const datasets = curves.flatMap(({ target, points }) => [
      curve(
        `${target}, imaged`,
        part(points, (p) => imaged.get(target)?.some((one) => contains(one, p.atMs)) ?? false),
        'ink',
        { width: 3.2 },
      ),
      curve(
        `${target}, Moon up`,
        part(points, (p) => p.moonAltitudeDeg > 0),
        'ink',
        { width: 1.2 },
      ),
      curve(
        `${target}, Moon down`,
        part(points, (p) => p.moonAltitudeDeg <= 0),
        'ink-soft',
        { width: 1.2, style: 'dotted' },
      ),
    ]);
    return {
      config: timeChart(
        datasets,
        {
          ...timeScales(context, span),
          y: valueScale('distance, degrees', { min: Math.max(0, low), max: Math.min(180, high), step: 15 }),
        },
        [backdrop(skyShades(night, span)), directLabels(labels)],
        outsideMargin(labels.map((label) => label.text)),
      ),
      heightPx: 230,
      altText: `Angle between Moon and target over the hours shown, dotted while the Moon was down. ${listed(said)}.`,
      table: null,
    };
  },
};
