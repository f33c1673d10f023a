import {
  atKey,
  contains,
  decimal,
  groupByAll,
  listed,
  midpointMs,
  weighedLights,
  type JudgedFrame,
  type MoonlightCurve,
  type Night,
} from '../../model/index.js';
import { imagedSpans } from '../figures/imaged.js';
import { cutToWidth } from '../timeline/scale.js';
import { outsideMargin } from './annotations.js';
import { backdrop, directLabels, type DirectLabel } from './marks.js';
import { TEXT_PX, timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { curve, strokes } from './series.js';
import { skyShades, skySpan } from './sky-span.js';

/** Less moonlight than this is not visible in a frame, magnitudes. */
const NOTHING_MAG = 0.01;
/** If no curve exceeds this, the chart would show only zeros, magnitudes. */
const FLAT_MAG = 0.1;
/** Strokes this close to each other look like one, magnitudes. */
const ALIKE_MAG = 0.15;
/** Frames of a filter further apart than this are not one run. */
const GAP_MS = 30 * 60_000;

function within(curves: readonly MoonlightCurve[], span: { startMs: number; endMs: number }): MoonlightCurve[] {
  return curves.map(({ target, points }) => ({
    target,
    points: points.filter((p) => p.atMs >= span.startMs && p.atMs <= span.endMs),
  }));
}

/** The longest run of frames without a gap; the list is sorted by start. */
function longestRun<T extends { readonly frame: JudgedFrame }>(lit: readonly T[]): T[] {
  const runs: T[][] = [];
  for (const one of lit) {
    const run = runs[runs.length - 1];
    const last = run?.[run.length - 1];
    if (run && last && one.frame.exposure.startMs - last.frame.exposure.endMs < GAP_MS) run.push(one);
    else runs.push([one]);
  }
  return runs.reduce<T[]>((best, run) => (run.length > best.length ? run : best), []);
}

/** Brightening in V at a frame's position and midpoint, magnitudes. */
function inV(night: Night, frame: JudgedFrame): number {
  const points = night.worth?.moonlight.find((one) => one.target === frame.target)?.points ?? [];
  return points.find((p) => p.atMs >= midpointMs(frame.exposure))?.brighteningMag ?? 0;
}

/** One stroke per exposure, at the brightening in its own filter. */
function frameStrokes(night: Night, context: ChartContext) {
  const order = new Map(night.gathered.trains.map((train, index) => [train.id, index]));
  const lit = weighedLights(night).map((frame) => ({ frame, y: frame.worth.moonBrighteningMag }));
  return groupByAll(lit, ({ frame }) => [frame.train, frame.filter ?? '']).flatMap((group) => {
    const first = group[0];
    if (!first) return [];
    const style = context.palette.filter(first.frame.filter);
    const run = longestRun(group);
    const middle = run[Math.floor(run.length / 2)] ?? first;
    const dataset = strokes(
      `${first.frame.train} ${style.label}`,
      group.map(({ frame, y }) => ({ span: frame.exposure, y })),
      style.colour,
      atKey(order, first.frame.train),
    );
    const label: DirectLabel = {
      x: middle.frame.exposure.startMs,
      y: middle.y,
      text: style.short,
      colour: 'ink',
      align: 'center',
      dy: middle.y < inV(night, middle.frame) ? 11 : -11,
    };
    return [{ dataset, label, isLit: middle.y >= NOTHING_MAG }];
  });
}

/** Trains that use the same filter at the same time have the same brightening: its label is drawn once. */
function isSaidFirst({ text, x, y }: DirectLabel, index: number, all: readonly DirectLabel[]): boolean {
  return !all
    .slice(0, index)
    .some(
      (one) => one.text === text && Math.abs(one.x - x) < 2 * GAP_MS && one.y - y < ALIKE_MAG && y - one.y < ALIKE_MAG,
    );
}

function whyNone({ gathered, worth }: Night): string {
  if (gathered.site === null) return 'the site is not known';
  return worth === null ? 'the brightness of the sky was not computed' : 'no target’s coordinates are known';
}

export const moonlight: Chart = {
  id: 'moonlight',
  title: 'Moonlight on the targets',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    const all = night.worth?.moonlight ?? [];
    if (all.length === 0) return { missing: whyNone(night) };
    const span = skySpan(night);
    const curves = within(all, span);
    const brightest = Math.max(0, ...curves.flatMap(({ points }) => points.map((p) => p.brighteningMag)));
    if (brightest < FLAT_MAG) return { missing: 'the Moon brightened the sky by less than 0.1 mag all night' };
    const shown = (target: string): string => cutToWidth(target, context.size === 'narrow' ? 80 : 150, TEXT_PX);
    const names = curves.flatMap(({ target, points }): DirectLabel[] => {
      const last = points[points.length - 1];
      return last ? [{ x: last.atMs, y: last.brighteningMag, text: shown(target), colour: 'ink', outside: true }] : [];
    });
    const frames = frameStrokes(night, context);
    const said = curves.flatMap(({ target, points }) => {
      const spans = imagedSpans(night, target);
      const imaged = points.filter((p) => spans.some((one) => contains(one, p.atMs))).map((p) => p.brighteningMag);
      return imaged.length === 0
        ? []
        : [`${target}: ${decimal(Math.min(...imaged), 1)} to ${decimal(Math.max(...imaged), 1)} mag while imaged`];
    });
    const datasets = [
      ...curves.map(({ target, points }) =>
        curve(
          `${target}, V`,
          points.map((p) => ({ x: p.atMs, y: p.brighteningMag })),
          'ink',
          { width: 1.2, style: 'dashed' },
        ),
      ),
      ...frames.map(({ dataset }) => dataset),
    ];
    const labels = [
      ...names,
      ...frames
        .filter(({ isLit }) => isLit)
        .map(({ label }) => label)
        .filter(isSaidFirst),
    ];
    return {
      config: timeChart(
        datasets,
        { ...timeScales(context, span), y: valueScale('sky brighter by, mag', { min: 0, suggestedMax: 1, digits: 1 }) },
        [backdrop(skyShades(night, span)), directLabels(labels)],
        outsideMargin(names.map((label) => label.text)),
      ),
      heightPx: context.size === 'narrow' ? 230 : 260,
      altText:
        'Predicted brightening of the sky at the targets by the Moon, in V and in the filter of each exposure. ' +
        `${listed(said)}.`,
      table: null,
    };
  },
};
