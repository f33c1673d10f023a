import type { ScaleOptionsByType } from 'chart.js';
import { clockOf, decimal, type Interval } from '../../model/index.js';
import { CANVAS_SANS, CANVAS_SANS_BOLD } from '../canvas-fonts.js';
import type { ChartContext } from './chart.js';
import { ink } from './inks.js';

/** What we set of a linear scale; the library fills in the rest. */
export type LinearScale = { type: 'linear' } & DeepPartial<ScaleOptionsByType<'linear'>>;
type DeepPartial<T> = T extends (...args: never[]) => unknown
  ? T
  : T extends object
    ? { [K in keyof T]?: DeepPartial<T[K]> }
    : T;

export const TEXT_PX = 13;

/** The font of charts at a size; its bold cut is a family of its own. */
export function font(size = TEXT_PX, bold = false): { family: string; size: number } {
  return { family: bold ? CANVAS_SANS_BOLD : CANVAS_SANS, size };
}

const MINUTE = 60_000;
const STEPS_MINUTES = [10, 15, 30, 60, 120, 180, 240, 360];

/** Minutes between the figures of a time axis, as close as they have room. */
function stepMinutes({ size }: ChartContext, span: Interval): number {
  const minutes = (span.endMs - span.startMs) / MINUTE;
  // `21:30` takes twice the room of `21`.
  const room = (step: number): number => (size === 'wide' ? 20 : 8) / (step < 60 ? 2 : 1);
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
  const ticks = zone.ticks(span.startMs, span.endMs, step);
  return {
    type: 'linear',
    position,
    offset: false,
    min: span.startMs,
    max: span.endMs,
    title: { display: true, text: title, align: 'start', color: ink('ink-soft'), font: font(), padding: 2 },
    afterBuildTicks: (axis: { ticks: { value: number }[] }) => {
      axis.ticks = ticks.map((value) => ({ value }));
    },
    ticks: {
      autoSkip: false,
      maxRotation: 0,
      color: ink('ink-soft'),
      font: font(),
      callback: (value: string | number) =>
        step < 60 ? zone.time(Number(value)) : zone.time(Number(value)).slice(0, 2),
    },
    grid: { color: ink('rule'), drawOnChartArea: position === 'bottom', offset: false, tickLength: 5 },
    border: { color: ink('rule-strong') },
  };
}

/** Local time below; UTC above only where the page shows it. */
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
  /** On the right side, without lines across the chart. */
  readonly right?: boolean;
}

/** A fifth digit tells nothing that is drawn. */
const MOST_DIGITS = 4;

/** Digits with which neighbouring ticks read unalike; none for ticks that are whole. */
function digitsThatTell(ticks: readonly { readonly value: number }[]): number {
  const [first, second] = ticks;
  const step = first && second ? Math.abs(second.value - first.value) : 1;
  return step > 0 && step < 1 ? Math.min(MOST_DIGITS, Math.ceil(-Math.log10(step) - 1e-9)) : 0;
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
      callback: (value: string | number, _index: number, ticks: readonly { readonly value: number }[]) => {
        const number = absolute ? Math.abs(Number(value)) : Number(value);
        const usual = digits ?? (Number.isInteger(Math.round(number * 1000) / 1000) ? 0 : 1);
        return decimal(number, Math.max(usual, digitsThatTell(ticks)));
      },
    },
    grid: { color: ink('rule'), drawOnChartArea: !right, tickLength: 4 },
    border: { display: false },
  };
}
