import type { ChartDataset } from 'chart.js';
import {
  clockOf,
  contains,
  decimal,
  intersect,
  interval,
  listed,
  percent,
  type Interval,
  type Night,
  type SkyPosition,
  type TargetCurve,
} from '../../model/index.js';
import { greatest } from '../figures/greatest.js';
import { imagedSpans } from '../figures/imaged.js';
import { cutToWidth } from '../timeline/scale.js';
import { backdrop, directLabels, type DirectLabel } from './marks.js';
import { TEXT_PX, timeScales, valueScale } from './axes.js';
import {
  figureColumn,
  wordColumn,
  type Chart,
  type ChartContext,
  type ChartDrawing,
  type ChartTable,
  type NoDrawing,
} from './chart.js';
import { timeChart } from './frame.js';
import { curve, type Point } from './series.js';
import { skyShades, skySpan } from './sky-span.js';

const HOUR = 3_600_000;
/** A Moon lower than this is not worth a label. */
const LOWEST_LABELLED_MOON_DEG = 3;

/** A target's path within the chart, and its highest point. */
interface Path {
  readonly target: string;
  readonly points: readonly SkyPosition[];
  readonly peak: SkyPosition | undefined;
}

function pathsOf(curves: readonly TargetCurve[], span: Interval): Path[] {
  return curves.map((one) => {
    const points = one.points.filter((p) => p.atMs >= span.startMs && p.atMs <= span.endMs);
    return { target: one.target, points, peak: greatest(points, (p) => p.altitudeDeg) };
  });
}

/** The part of a target's path in which it was imaged: drawn bold. */
function imaged(night: Night, { target, points }: Path): Point[] {
  const spans = imagedSpans(night, target);
  return points.map((p) => ({
    x: p.atMs,
    y: spans.some((span) => contains(span, p.atMs)) ? p.altitudeDeg : Number.NaN,
  }));
}

/** One horizontal line if the limit is the same all round; otherwise the horizon along each target's path. */
function limits(paths: readonly Path[], span: Interval): { datasets: ChartDataset[]; labels: DirectLabel[] } {
  const all = paths.flatMap(({ points }) => points.map((p) => p.limitDeg));
  const level = all[0];
  if (level === undefined) return { datasets: [], labels: [] };
  const same = all.every((limit) => limit === level);
  const line = (name: string, points: readonly Point[]): ChartDataset =>
    curve(name, points, 'ink-soft', { width: 1.2, style: 'dashed' });
  const text = same ? `limit ${decimal(level, 0)}°` : 'local horizon';
  return {
    datasets: same
      ? [
          line('limit', [
            { x: span.startMs, y: level },
            { x: span.endMs, y: level },
          ]),
        ]
      : paths.map(({ target, points }) =>
          line(
            `limit for ${target}`,
            points.map((p) => ({ x: p.atMs, y: p.limitDeg })),
          ),
        ),
    labels: [{ x: span.endMs, y: level, text, colour: 'ink-soft', align: 'right', dy: -9 }],
  };
}

/** Sun, Moon and every target at each whole hour of local time. */
function hourly({ sky: { curves } }: Night, span: Interval, { clock, showsUtc = false }: ChartContext): ChartTable {
  const utc = clockOf('UTC');
  const rows = clock.ticks(span.startMs, span.endMs, 60).map((atMs) => {
    const nearest = curves.map(({ points }) => greatest(points, (p) => -Math.abs(p.atMs - atMs)));
    const [first] = nearest;
    return [
      clock.time(atMs),
      ...(showsUtc ? [utc.time(atMs)] : []),
      decimal(first?.sunAltitudeDeg, 0),
      decimal(first?.moonAltitudeDeg, 0),
      ...nearest.flatMap((p) => [
        decimal(p?.altitudeDeg, 0),
        decimal(p?.azimuthDeg, 0),
        decimal(p?.airmass, 2),
        decimal(p?.moonSeparationDeg, 0),
      ]),
    ];
  });
  return {
    caption: 'Sun, Moon and targets at each whole hour',
    groups: [{ label: '', span: showsUtc ? 4 : 3 }, ...curves.map(({ target }) => ({ label: target, span: 4 }))],
    columns: [
      wordColumn('Local time'),
      ...(showsUtc ? [wordColumn('UTC')] : []),
      figureColumn('Sun °'),
      figureColumn('Moon °'),
      ...curves.flatMap(() => ['altitude °', 'azimuth °', 'airmass', 'Moon distance °'].map(figureColumn)),
    ],
    rows,
  };
}

/** The hours of darkness and one on each side, as far as the chart reaches; everything if lights were taken by day. */
function tableSpan({ sky: { window } }: Night, span: Interval): Interval {
  return intersect(interval(window.startMs - HOUR, window.endMs + HOUR), span) ?? span;
}

export const altitude: Chart = {
  id: 'altitude',
  title: 'Altitude of targets and Moon',
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
    const paths = pathsOf(night.sky.curves, span);
    const moon = paths[0]?.points ?? [];
    const moonPeak = greatest(
      moon.filter((p) => p.moonAltitudeDeg > LOWEST_LABELLED_MOON_DEG),
      (p) => p.moonAltitudeDeg,
    );
    const limit = limits(paths, span);
    const above = { align: 'center', dy: -11 } as const;
    const labels: DirectLabel[] = [
      ...paths.flatMap(({ target, peak }): DirectLabel[] => {
        const text = cutToWidth(target, context.size === 'narrow' ? 130 : 260, TEXT_PX);
        return peak ? [{ x: peak.atMs, y: peak.altitudeDeg, text, colour: 'ink', ...above }] : [];
      }),
      ...(moonPeak
        ? [
            {
              x: moonPeak.atMs,
              y: moonPeak.moonAltitudeDeg,
              text: `Moon, ${percent(night.sky.almanac?.moon.illumination)} lit`,
              colour: 'moon',
              ...above,
            },
          ]
        : []),
      ...limit.labels,
    ];
    const datasets = [
      curve(
        'Moon',
        moon.map((p) => ({ x: p.atMs, y: p.moonAltitudeDeg })),
        'moon',
        { width: 2 },
      ),
      ...limit.datasets,
      ...paths.map(({ target, points }) =>
        curve(
          target,
          points.map((p) => ({ x: p.atMs, y: p.altitudeDeg })),
          'ink',
          { width: 1.1 },
        ),
      ),
      ...paths.map((path) => curve(`${path.target}, imaged`, imaged(night, path), 'ink', { width: 3.2 })),
    ];
    const heights = paths.flatMap(({ target, peak }) =>
      peak ? [`${target} was highest at ${context.clock.time(peak.atMs)}, at ${decimal(peak.altitudeDeg, 0)}°`] : [],
    );
    const moonText = moonPeak
      ? `The Moon reached ${decimal(moonPeak.moonAltitudeDeg, 0)}°.`
      : 'The Moon stayed below the horizon.';
    const scales = { ...timeScales(context, span), y: valueScale('altitude, degrees', { min: 0, max: 90, step: 15 }) };
    return {
      config: timeChart(datasets, scales, [
        backdrop(skyShades(night, span)),
        directLabels(
          labels,
          limit.datasets.flatMap(({ label }) => label ?? []),
        ),
      ]),
      heightPx: context.size === 'narrow' ? 280 : 330,
      altText:
        `Altitude from ${context.clock.time(span.startMs)} to ${context.clock.time(span.endMs)}: ` +
        `${listed(heights)}. ${moonText}`,
      table: hourly(night, tableSpan(night, span), context),
    };
  },
};
