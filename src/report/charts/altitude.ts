import type { ChartDataset } from 'chart.js';
import { contains, type Interval, type Night, type SkyPosition, type TargetCurve } from '../../model/index.js';
import { imagedSpans } from '../figures/imaged.js';
import { clockOf } from '../text/clock.js';
import { decimal, listed, percent } from '../text/number.js';
import { cutToWidth } from '../timeline/scale.js';
import { skyShades, skySpan } from './sky-span.js';
import { backdrop, directLabels, type DirectLabel } from './annotations.js';
import { TEXT_PX, timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, ChartTable, NoDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { curve, type Point } from './series.js';

const HOUR = 3_600_000;

function within(points: readonly SkyPosition[], span: Interval): SkyPosition[] {
  return points.filter((p) => p.atMs >= span.startMs && p.atMs <= span.endMs);
}

function highest(points: readonly SkyPosition[]): SkyPosition | undefined {
  return points.reduce<SkyPosition | undefined>((best, p) => (best === undefined || p.altitudeDeg > best.altitudeDeg ? p : best), undefined);
}

/** The part of a target's curve in which it was imaged: drawn heavy. */
function imaged(night: Night, target: TargetCurve): Point[] {
  const spans = imagedSpans(night, target.target);
  return target.points.map((p) => ({ x: p.atMs, y: spans.some((span) => contains(span, p.atMs)) ? p.altitudeDeg : Number.NaN }));
}

/** One level line where the limit is the same all round; the horizon along each target's path where it is not. */
function limits(curves: readonly TargetCurve[], span: Interval): { datasets: ChartDataset<'scatter', Point[]>[]; label: DirectLabel | undefined } {
  const all = curves.flatMap((one) => within(one.points, span).map((p) => p.limitDeg));
  const level = all[0];
  if (level === undefined) return { datasets: [], label: undefined };
  const same = all.every((limit) => limit === level);
  const datasets = same
    ? [curve('limit', [{ x: span.startMs, y: level }, { x: span.endMs, y: level }], 'ink-soft', { width: 1.2, style: 'dashed' })]
    : curves.map((one) => curve(`limit for ${one.target}`, within(one.points, span).map((p) => ({ x: p.atMs, y: p.limitDeg })), 'ink-soft', { width: 1.2, style: 'dashed' }));
  return { datasets, label: { x: span.endMs, y: level, text: same ? `limit ${decimal(level, 0)}°` : 'local horizon', colour: 'ink-soft', align: 'right', dy: -9 } };
}

function hourly(night: Night, span: Interval, context: ChartContext): ChartTable {
  const columns = [
    { label: 'Local time', numeric: false }, { label: 'UTC', numeric: false }, { label: 'Sun °', numeric: true }, { label: 'Moon °', numeric: true },
    ...night.curves.flatMap(() => [
      { label: 'altitude °', numeric: true }, { label: 'azimuth °', numeric: true }, { label: 'airmass', numeric: true }, { label: 'Moon distance °', numeric: true },
    ]),
  ];
  const rows = context.clock.ticks(span.startMs, span.endMs, 60).map((atMs) => {
    const nearest = night.curves.map((one) => one.points.reduce<SkyPosition | undefined>((best, p) => (best === undefined || Math.abs(p.atMs - atMs) < Math.abs(best.atMs - atMs) ? p : best), undefined));
    const first = nearest[0];
    return [
      context.clock.time(atMs), clockOf('UTC').time(atMs), decimal(first?.sunAltitudeDeg, 0), decimal(first?.moonAltitudeDeg, 0),
      ...nearest.flatMap((p) => [decimal(p?.altitudeDeg, 0), decimal(p?.azimuthDeg, 0), decimal(p?.airmass, 2), decimal(p?.moonSeparationDeg, 0)]),
    ];
  });
  return { caption: 'Sun, Moon and targets at each whole hour', groups: [{ label: '', span: 4 }, ...night.curves.map(({ target }) => ({ label: target, span: 4 }))], columns, rows };
}

export const altitude: Chart = {
  id: 'altitude',
  title: 'Altitude of targets and Moon',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    const first = night.curves[0];
    if (!first) return { missing: night.site === null ? 'the site is not known' : 'the place of no target is known' };
    const span = skySpan(night);
    const moon = within(first.points, span);
    const limit = limits(night.curves, span);
    const peaks = night.curves.map((one) => ({ one, peak: highest(within(one.points, span)) }));
    const moonPeak = moon.reduce<SkyPosition | undefined>((best, p) => (p.moonAltitudeDeg > (best?.moonAltitudeDeg ?? 3) ? p : best), undefined);
    const labels: DirectLabel[] = [
      ...peaks.flatMap(({ one, peak }): DirectLabel[] => (peak ? [{ x: peak.atMs, y: peak.altitudeDeg, text: cutToWidth(one.target, context.size === 'wide' ? 260 : 130, TEXT_PX), colour: 'ink', align: 'center', dy: -11 }] : [])),
      ...(moonPeak ? [{ x: moonPeak.atMs, y: moonPeak.moonAltitudeDeg, text: `Moon, ${percent(night.sky?.moon.illumination)} lit`, colour: 'moon', align: 'center', dy: -11 } satisfies DirectLabel] : []),
      ...(limit.label ? [limit.label] : []),
    ];
    const datasets = [
      curve('Moon', moon.map((p) => ({ x: p.atMs, y: p.moonAltitudeDeg })), 'moon', { width: 2 }),
      ...limit.datasets,
      ...night.curves.map((one) => curve(one.target, within(one.points, span).map((p) => ({ x: p.atMs, y: p.altitudeDeg })), 'ink', { width: 1.1 })),
      ...night.curves.map((one) => curve(`${one.target}, imaged`, imaged(night, one), 'ink', { width: 3.2 })),
    ];
    const said = peaks.flatMap(({ one, peak }) => (peak ? [`${one.target} stood highest at ${context.clock.time(peak.atMs)}, ${decimal(peak.altitudeDeg, 0)}° up`] : []));
    return {
      config: timeChart(datasets, { ...timeScales(context, span), y: valueScale('altitude, degrees', { min: 0, max: 90, step: 15 }) }, [backdrop(skyShades(night, span)), directLabels(labels)]),
      heightPx: context.size === 'wide' ? 330 : 280,
      altText: `Altitude over the night: ${listed(said)}. ${moonPeak ? `The Moon reached ${decimal(moonPeak.moonAltitudeDeg, 0)}°.` : 'The Moon stayed below the horizon.'}`,
      table: hourly(night, { startMs: Math.max(span.startMs, night.window.startMs - HOUR), endMs: Math.min(span.endMs, night.window.endMs + HOUR) }, context),
    };
  },
};
