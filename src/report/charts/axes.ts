import type { ScaleOptionsByType } from 'chart.js';
import { clockOf, type Interval } from '../../model/index.js';
import { CANVAS_SANS, CANVAS_SANS_BOLD } from '../canvas-fonts.js';
import type { ChartContext } from './chart.js';
import { ink } from './inks.js';

/**
 * The options we set for a linear scale; the library supplies the rest. Plain data: callbacks are created where the
 * chart is drawn.
 */
export type LinearScale = { type: 'linear' } & DeepPartial<ScaleOptionsByType<'linear'>> & ScaleLabels;
type DeepPartial<T> = T extends (...args: never[]) => unknown
  ? T
  : T extends object
    ? { [K in keyof T]?: DeepPartial<T[K]> }
    : T;

/** How a scale's ticks are labelled. */
export interface ScaleLabels {
  /** Explicit ticks, if the library is not to place them. */
  readonly labelled?: readonly { readonly value: number; readonly label: string }[];
  /** How tick values are formatted. */
  readonly figures?: { readonly digits?: number; readonly absolute: boolean };
}

export const TEXT_PX = 13;

/** The chart font at a size; its bold weight is a separate family. */
export function font(size = TEXT_PX, bold = false): { family: string; size: number } {
  return { family: bold ? CANVAS_SANS_BOLD : CANVAS_SANS, size };
}

const MINUTE = 60_000;
const STEPS_MINUTES = [10, 15, 30, 60, 120, 180, 240, 360];

/** Minutes between the labels of a time axis, as dense as they fit. */
function stepMinutes({ size }: ChartContext, span: Interval): number {
  const minutes = (span.endMs - span.startMs) / MINUTE;
  // `21:30` takes twice the room of `21`.
  const room = (step: number): number => (size === 'narrow' ? 8 : 20) / (step < 60 ? 2 : 1);
  return STEPS_MINUTES.find((step) => minutes / step <= room(step)) ?? 360;
}

function hourScale(
  context: ChartContext,
  span: Interval,
  zone: ChartContext['clock'],
  position: 'top' | 'bottom',
  title: string,
): LinearScale {
  const step = stepMinutes(context, span);
  const labelled = zone.ticks(span.startMs, span.endMs, step).map((value) => {
    const time = zone.time(value);
    return { value, label: step < 60 ? time : time.slice(0, 2) };
  });
  return {
    type: 'linear',
    position,
    offset: false,
    min: span.startMs,
    max: span.endMs,
    title: { display: true, text: title, align: 'start', color: ink('ink-soft'), font: font(), padding: 2 },
    labelled,
    ticks: { autoSkip: false, maxRotation: 0, color: ink('ink-soft'), font: font() },
    grid: { color: ink('rule'), drawOnChartArea: position === 'bottom', offset: false, tickLength: 5 },
    border: { color: ink('rule-strong') },
  };
}

/** Local time below; UTC above only if the page shows it. */
export function timeScales(context: ChartContext, span: Interval): { x: LinearScale; utc?: LinearScale } {
  const { clock, showsUtc = false, isShared = false } = context;
  if (isShared) return { x: hourScale(context, span, clock, 'bottom', 'hours since the first exposure') };
  const [first, last] = [clock.offset(span.startMs), clock.offset(span.endMs)];
  if (first === 'UTC' && last === 'UTC') return { x: hourScale(context, span, clock, 'bottom', 'UTC, hours') };
  const label = first === last ? first : `${first}, then ${last}`;
  return {
    x: hourScale(context, span, clock, 'bottom', `local time, hours (${label})`),
    ...(showsUtc ? { utc: hourScale(context, span, clockOf('UTC'), 'top', 'UTC, hours') } : {}),
  };
}

export interface ValueScaleOptions {
  readonly min?: number;
  readonly max?: number;
  readonly suggestedMin?: number;
  readonly suggestedMax?: number;
  readonly step?: number;
  /** Decimals of the labels. */
  readonly digits?: number;
  /** Labels without their sign, for charts that grow both ways from zero. */
  readonly absolute?: boolean;
  /** On the right side, without grid lines. */
  readonly right?: boolean;
}

/** A vertical scale with its title and unit. */
export function valueScale(title: string, more: ValueScaleOptions = {}): LinearScale {
  const { min, max, suggestedMin, suggestedMax, step, digits, absolute = false, right = false } = more;
  return {
    type: 'linear',
    position: right ? 'right' : 'left',
    ...(min === undefined ? {} : { min }),
    ...(max === undefined ? {} : { max }),
    ...(suggestedMin === undefined ? {} : { suggestedMin }),
    ...(suggestedMax === undefined ? {} : { suggestedMax }),
    title: { display: true, text: title, color: ink('ink-soft'), font: font(), padding: 2 },
    ticks: {
      color: ink('ink-soft'),
      font: font(),
      maxTicksLimit: 7,
      ...(step === undefined ? {} : { stepSize: step }),
    },
    figures: { ...(digits === undefined ? {} : { digits }), absolute },
    grid: { color: ink('rule'), drawOnChartArea: !right, tickLength: 4 },
    border: { display: false },
  };
}
