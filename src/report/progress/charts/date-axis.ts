import type { LinearScale } from '../../charts/axes.js';
import { font, TEXT_PX } from '../../charts/axes.js';
import { CHART_WIDTH, type ChartSize } from '../../charts/chart.js';
import { ink } from '../../charts/inks.js';
import { cutToWidth, textWidthPx } from '../../timeline/scale.js';
import { dayText, monthText, noonMs } from '../dates.js';

const DAY = 86_400_000;

interface Tick {
  readonly value: number;
  readonly label: string;
}

/** Steps of the axis, finest first: days, then months. */
const STEPS = [
  { days: 1 },
  { days: 2 },
  { days: 7 },
  { days: 14 },
  { months: 1 },
  { months: 2 },
  { months: 3 },
  { months: 6 },
  { months: 12 },
  { months: 24 },
  { months: 60 },
] as const;

/** Space between two labels, px, and for the figures of the vertical axis. */
const GAP_PX = 6;
const AXIS_PX = 56;
/** More ticks than this are never tried. */
const MOST_TICKS = 60;

/** Ticks over a span of dates, as dense as their labels fit in a width. */
export function dateTicks(startMs: number, endMs: number, widthPx: number): Tick[] {
  for (const step of STEPS) {
    if ((endMs - startMs) / (('days' in step ? step.days : 28 * step.months) * DAY) > MOST_TICKS) continue;
    const ticks = 'days' in step ? dayTicks(startMs, endMs, step.days) : monthTicks(startMs, endMs, step.months);
    const pxPerMs = widthPx / (endMs - startMs);
    const fits = ticks.every(({ value, label }, i) => {
      const next = ticks[i + 1];
      return (
        next === undefined ||
        (next.value - value) * pxPerMs >= (textWidthPx(label, TEXT_PX) + textWidthPx(next.label, TEXT_PX)) / 2 + GAP_PX
      );
    });
    if (fits) return ticks;
  }
  return [];
}

function dayTicks(startMs: number, endMs: number, days: number): Tick[] {
  const ticks: Tick[] = [];
  for (let value = noonMs(isoDate(startMs)); value <= endMs; value += days * DAY)
    if (value >= startMs) ticks.push({ value, label: dayText(isoDate(value)) });
  return ticks;
}

function monthTicks(startMs: number, endMs: number, months: number): Tick[] {
  const first = new Date(startMs);
  const ticks: Tick[] = [];
  for (let month = first.getUTCFullYear() * 12 + first.getUTCMonth(); ; month++) {
    const value = Date.UTC(Math.floor(month / 12), month % 12, 1, 12);
    if (value > endMs) return ticks;
    if (
      value >= startMs &&
      (month % 12) % Math.min(months, 12) === 0 &&
      (months <= 12 || Math.floor(month / 12) % (months / 12) === 0)
    ) {
      // The year is given once, and again when it changes.
      const isNewYear = ticks.length === 0 || month % 12 === 0;
      ticks.push({
        value,
        label:
          months >= 12
            ? isoDate(value).slice(0, 4)
            : isNewYear
              ? monthText(isoDate(value))
              : monthText(isoDate(value)).slice(0, 3),
      });
    }
  }
}

function isoDate(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}

/** A label next to a chart, truncated if it would take the chart's own space. */
export function besideText(text: string, size: ChartSize): string {
  return cutToWidth(text, CHART_WIDTH[size] / 5, TEXT_PX);
}

/**
 * A horizontal axis of dates.
 *
 * @param marginPx width for labels right of the chart
 */
export function dateScale(startMs: number, endMs: number, size: ChartSize, marginPx: number): LinearScale {
  const ticks = dateTicks(startMs, endMs, CHART_WIDTH[size] - AXIS_PX - marginPx);
  return {
    type: 'linear',
    position: 'bottom',
    offset: false,
    min: startMs,
    max: endMs,
    labelled: ticks,
    ticks: { autoSkip: false, maxRotation: 0, color: ink('ink-soft'), font: font() },
    grid: { color: ink('rule'), offset: false, tickLength: 5 },
    border: { color: ink('rule-strong') },
  };
}

/** The axis over dates, with space at both ends. */
export function axisSpan(dates: readonly string[]): { readonly startMs: number; readonly endMs: number } {
  const [first = '1970-01-01', last = first] = [dates[0], dates.at(-1)];
  const air = Math.max(2 * DAY, (noonMs(last) - noonMs(first)) * 0.02);
  return { startMs: noonMs(first) - air, endMs: noonMs(last) + air };
}
