import type { LinearScale } from '../../charts/axes.js';
import { font } from '../../charts/axes.js';
import type { ChartSize } from '../../charts/chart.js';
import { ink } from '../../charts/inks.js';
import { dayText, monthText, noonMs } from '../dates.js';

const DAY = 86_400_000;

interface Tick {
  readonly value: number;
  readonly label: string;
}

/** Steps of the axis, finest first: days, then months. */
const STEPS = [{ days: 1 }, { days: 2 }, { days: 7 }, { days: 14 }, { months: 1 }, { months: 2 }, { months: 3 }, { months: 6 }, { months: 12 }, { months: 24 }, { months: 60 }] as const;

/** Ticks over a span of dates, no more than there is room for. */
export function dateTicks(startMs: number, endMs: number, room: number): Tick[] {
  for (const step of STEPS) {
    if ((endMs - startMs) / (('days' in step ? step.days : 28 * step.months) * DAY) > 2 * room) continue;
    const ticks = 'days' in step ? dayTicks(startMs, endMs, step.days) : monthTicks(startMs, endMs, step.months);
    if (ticks.length <= room) return ticks;
  }
  return [];
}

function dayTicks(startMs: number, endMs: number, days: number): Tick[] {
  const ticks: Tick[] = [];
  for (let value = noonMs(isoDate(startMs)); value <= endMs; value += days * DAY) if (value >= startMs) ticks.push({ value, label: dayText(isoDate(value)) });
  return ticks;
}

function monthTicks(startMs: number, endMs: number, months: number): Tick[] {
  const first = new Date(startMs);
  const ticks: Tick[] = [];
  for (let month = first.getUTCFullYear() * 12 + first.getUTCMonth(); ; month++) {
    const value = Date.UTC(Math.floor(month / 12), month % 12, 1, 12);
    if (value > endMs) return ticks;
    if (value >= startMs && (month % 12) % Math.min(months, 12) === 0 && (months <= 12 || Math.floor(month / 12) % (months / 12) === 0)) {
      ticks.push({ value, label: months >= 12 ? isoDate(value).slice(0, 4) : monthText(isoDate(value)) });
    }
  }
}

function isoDate(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}

/** A horizontal axis of dates. */
export function dateScale(startMs: number, endMs: number, size: ChartSize): LinearScale {
  const ticks = dateTicks(startMs, endMs, size === 'wide' ? 12 : 6);
  const labels = new Map(ticks.map(({ value, label }) => [value, label]));
  return {
    type: 'linear', position: 'bottom', offset: false, min: startMs, max: endMs,
    afterBuildTicks: (axis: { ticks: { value: number }[] }) => { axis.ticks = ticks.map(({ value }) => ({ value })); },
    ticks: { autoSkip: false, maxRotation: 0, color: ink('ink-soft'), font: font(), callback: (value: string | number) => labels.get(Number(value)) ?? '' },
    grid: { color: ink('rule'), offset: false, tickLength: 5 },
    border: { color: ink('rule-strong') },
  };
}

/** The axis over dates, with room at both ends. */
export function axisSpan(dates: readonly string[]): { readonly startMs: number; readonly endMs: number } {
  const [first = '1970-01-01', last = first] = [dates[0], dates.at(-1)];
  const air = Math.max(2 * DAY, (noonMs(last) - noonMs(first)) * 0.02);
  return { startMs: noonMs(first) - air, endMs: noonMs(last) + air };
}
