import { counted, decimal, partitionPoint, type GuidingSeries, type Interval, type Night } from '../../model/index.js';
import { outsideMargin } from './annotations.js';
import { directLabels, verticals, type DirectLabel } from './marks.js';
import { timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { curve, type Point } from './series.js';
import { workSpan } from './sky-span.js';

/** Columns of the strip: at most this many time slots, each shown by its RMS per axis. */
const SLOTS = 300;
const SHORTEST_SLOT_MS = 30_000;

/** RMS per slot; `NaN` for a slot without samples, to interrupt the curve. */
function slots(series: GuidingSeries, span: Interval, column: Float64Array): Point[] {
  const slotMs = Math.max(SHORTEST_SLOT_MS, (span.endMs - span.startMs) / SLOTS);
  const points: Point[] = [];
  let from = partitionPoint(series.atMs, (t) => t >= span.startMs);
  for (let startMs = span.startMs; startMs < span.endMs; startMs += slotMs) {
    const to = partitionPoint(series.atMs, (t) => t >= startMs + slotMs);
    let sum = 0;
    let count = 0;
    for (let i = from; i < to; i++) {
      const value = column[i];
      if (value === undefined || !Number.isFinite(value)) continue;
      sum += value * value;
      count++;
    }
    points.push({ x: startMs + slotMs / 2, y: count === 0 ? Number.NaN : Math.sqrt(sum / count) });
    from = to;
  }
  return points;
}

const last = (points: readonly Point[]): Point | undefined => points.findLast((p) => Number.isFinite(p.y));
const highest = (points: readonly Point[]): number => Math.max(0, ...points.map((p) => p.y).filter(Number.isFinite));

export const guidingStrip: Chart = {
  id: 'guiding-strip',
  title: 'Guiding through the night',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    if (night.gathered.guiding === null || night.gathered.guiding.atMs.length === 0)
      return { missing: 'there are no guiding samples' };
    const span = workSpan(night);
    const ra = slots(night.gathered.guiding, span, night.gathered.guiding.raArcsec);
    const dec = slots(night.gathered.guiding, span, night.gathered.guiding.decArcsec);
    const reach = Math.max(highest(ra), highest(dec));
    if (reach === 0) return { missing: 'no guiding sample falls within the window' };
    const off = night.timeline.activities.filter((a) => a.kind === 'guiding-rest' || a.kind === 'star-gap');
    const labels = (
      [
        ['RA', ra],
        ['Dec', dec],
      ] as const
    ).flatMap(([text, points], index): DirectLabel[] => {
      const end = last(points);
      return end ? [{ x: end.x, y: end.y, text, colour: index === 0 ? 'ink' : 'ink-soft', outside: true }] : [];
    });
    const step = reach > 4 ? 2 : reach > 1.5 ? 1 : 0.5;
    return {
      config: timeChart(
        [curve('Dec', dec, 'ink-soft', { width: 1.2, style: 'dotted' }), curve('RA', ra, 'ink', { width: 1.3 })],
        {
          ...timeScales(context, span),
          y: valueScale('RMS, arcsec', { min: 0, max: Math.ceil((reach * 1.05) / step) * step, step, digits: 1 }),
        },
        [verticals(off.map((a) => ({ atMs: a.span.startMs, colour: 'loss' }))), directLabels(labels)],
        outsideMargin(labels.map((label) => label.text)),
      ),
      heightPx: context.size === 'narrow' ? 180 : 170,
      altText:
        'Guiding errors through the night, right ascension and declination. ' +
        (night.accounts.guidingOverall === null
          ? ''
          : `Over the night ${decimal(night.accounts.guidingOverall.raRmsArcsec, 2)}″ in right ascension and ` +
            `${decimal(night.accounts.guidingOverall.decRmsArcsec, 2)}″ in declination. `) +
        `Guiding was paused or without a star ${counted(off.length, 'time')}.`,
      table: null,
    };
  },
};
