/** Statistics of the user's own record: how often nights are used, and the yield of an hour of darkness. */
import { quantile, sum, type Pace, type Range } from '../model/index.js';
import { addDays, daysBetween } from './dates.js';

/** A night of the archive with known darkness and kept integration. */
export interface PastNight {
  readonly date: string;
  readonly darkMs: number;
  readonly keptByTrainMs: Readonly<Record<string, number>>;
}

/** Mean length of a month, days. */
const MONTH_DAYS = 365.25 / 12;
const HOUR = 3_600_000;

/** Fewer nights than this are not predictive. */
export const LEAST_NIGHTS = 5;

/** Nights on fewer days than these are not representative of a month: five in a row are not thirty. */
const LEAST_DAYS = 28;

/**
 * Sums up past nights.
 *
 * @param from the first evening to come: the days without a night since the last one count
 */
export function paceOf(past: readonly PastNight[], from?: string): Pace {
  const days = calendarOf(past, from).length;
  const kept = past.map(({ keptByTrainMs, darkMs }) => ({ ms: sum(Object.values(keptByTrainMs)), darkMs }));
  return {
    nights: past.length,
    days,
    nightsPerMonth: days >= LEAST_DAYS ? (past.length / days) * MONTH_DAYS : null,
    keptPerDarkHour: rangeOf(kept.map(({ ms, darkMs }) => ms / darkMs)),
    keptHoursPerNight: rangeOf(kept.map(({ ms }) => ms / HOUR)),
  };
}

/**
 * Every day from the first night to the last, or to the day before `from` where that is later, with what was kept on it
 * or `null`.
 */
export function calendarOf(
  past: readonly PastNight[],
  from?: string,
): { readonly date: string; readonly night: PastNight | null }[] {
  const dates = past.map((night) => night.date).sort();
  const [first, used] = [dates[0], dates.at(-1)];
  const eve = from === undefined ? undefined : addDays(from, -1);
  const last = used !== undefined && eve !== undefined && eve > used ? eve : used;
  if (first === undefined || last === undefined) return [];
  const byDate = new Map(past.map((night) => [night.date, night]));
  return Array.from({ length: daysBetween(first, last) + 1 }, (_, i) => {
    const date = addDays(first, i);
    return { date, night: byDate.get(date) ?? null };
  });
}

function rangeOf(values: readonly number[]): Range | null {
  return values.length === 0
    ? null
    : { low: quantile(values, 0.1), middle: quantile(values, 0.5), high: quantile(values, 0.9) };
}
