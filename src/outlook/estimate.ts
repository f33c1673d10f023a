/**
 * How many more nights: past nights resampled with replacement as the nights to come.
 *
 * Weather is persistent, so whole weeks are drawn, including unused nights, from the calendar closed to a ring
 * (circular block bootstrap; D. N. Politis & J. P. Romano 1992, in Exploring the Limits of Bootstrap, 263). If the
 * archive has enough days of the same season, they are drawn from those.
 */
import { itemAt, type Estimate, type NightHours, type Season } from '../model/index.js';
import { dayOfYear } from './dates.js';
import { calendarOf, LEAST_NIGHTS, type PastNight } from './pace.js';
import { seededRandom } from './random.js';
import { Work, type Task, type TrainRate } from './work.js';

const DRAWS = 1000;
/**
 * However many nights: weather that never occurred may still occur, and rounded to whole per cent this is not 100 %.
 */
const MOST_SURE = 0.99;
const BLOCK_DAYS = 7;
/** Days of the year this close belong to the same season; fewer past days than this are too few to draw from. */
const SEASON_DAYS = 45;
const SEASON_LEAST = 60;
const YEAR_DAYS = 365;

/** A past day: its date, and what each train kept of an hour of darkness; `null` for a day without. */
interface PastDay {
  readonly date: string;
  readonly rates: readonly TrainRate[] | null;
}

/** One simulated future: nights used and index of the night on which everything was done, or `null` if never. */
type Outcome = { readonly used: number; readonly index: number } | null;

/** Draws the nights to come from the past; the same for every target. */
export class Futures {
  private readonly days: readonly PastDay[];
  /** For each coming week the past days with which it may begin. */
  private readonly starts: readonly (readonly number[])[];
  private readonly isTelling: boolean;
  /** Higher fractions are not stated: so few nights make nothing certain (rule of succession; P.-S. Laplace 1774). */
  private readonly surest: number;

  /**
   * @param past nights of the archive
   * @param dates consecutive coming evenings
   */
  constructor(
    past: readonly PastNight[],
    dates: readonly string[],
    private readonly seed: number,
  ) {
    this.days = calendarOf(past, dates[0]).map(({ date, night }) => ({ date, rates: night && ratesOf(night) }));
    this.isTelling = past.length >= LEAST_NIGHTS;
    this.surest = Math.min(MOST_SURE, 1 - 1 / (past.length + 2));
    this.starts = startsOf(dates, this.days);
  }

  /**
   * Estimates when a target's tasks are done if every night used goes to it.
   *
   * @param nights its hours on the coming evenings
   * @returns `null` with too few past nights
   */
  estimate(nights: readonly NightHours[], tasks: readonly Task[], season: Season): Estimate | null {
    if (!this.isTelling) return null;
    const random = seededRandom(this.seed);
    const weeks = weeksOf(nights);
    const outcomes = Array.from({ length: DRAWS }, () => this.imagine(weeks, tasks, random));
    const done = outcomes.flatMap((o) => o ?? []);
    const seasonEnd = season.state === 'never' ? '' : season.until;
    const inSeason = done.filter(({ index }) => {
      return seasonEnd === null || itemAt(nights, index).date <= seasonEnd;
    });
    const used = done.map((o) => o.used).sort((a, b) => a - b);
    const last = done.map((o) => o.index).sort((a, b) => a - b);
    const dateAt = (share: number): string | null => {
      const index = last[rank(share)];
      return index === undefined ? null : itemAt(nights, index).date;
    };
    const usedAt = (share: number): number | null => used[rank(share)] ?? null;
    const [lowUsed, lowDate] = [usedAt(0.1), dateAt(0.1)];
    return {
      draws: DRAWS,
      finished: Math.min(this.surest, done.length / DRAWS),
      finishedThisSeason: Math.min(this.surest, inSeason.length / DRAWS),
      nights: lowUsed === null ? null : { low: lowUsed, middle: usedAt(0.5), high: usedAt(0.9) },
      dates: lowDate === null ? null : { low: lowDate, middle: dateAt(0.5), high: dateAt(0.9) },
    };
  }

  private imagine(weeks: readonly Week[], tasks: readonly Task[], random: () => number): Outcome {
    const work = new Work(tasks);
    let used = 0;
    for (let week = 0; week < weeks.length; week++) {
      const choice = this.starts[week] ?? [];
      const from = choice[Math.floor(random() * choice.length)] ?? 0;
      for (const { night, index } of itemAt(weeks, week)) {
        const rates = this.days[(from + (index % BLOCK_DAYS)) % this.days.length]?.rates;
        if (!rates || !work.spend(night, rates)) continue;
        used++;
        if (work.isDone) return { used, index };
      }
    }
    return null;
  }
}

/** The nights of a week on which something can be done, and their places among all: for half of the year none. */
type Week = readonly { readonly night: NightHours; readonly index: number }[];

function weeksOf(nights: readonly NightHours[]): Week[] {
  const hasHours = ({ moonless, farMoon, deepRedMoon }: NightHours): boolean =>
    moonless !== 0 || farMoon !== 0 || deepRedMoon !== 0;
  const placed = nights.map((night, index) => ({ night, index }));
  return Array.from({ length: Math.ceil(nights.length / BLOCK_DAYS) }, (_, week) =>
    placed.slice(week * BLOCK_DAYS, (week + 1) * BLOCK_DAYS).filter(({ night }) => hasHours(night)),
  );
}

/** Rank of a quantile among all draws, with those that never finish last. */
function rank(share: number): number {
  return Math.floor(share * (DRAWS - 1));
}

function ratesOf({ darkMs, keptByTrainMs }: PastNight): TrainRate[] {
  return Object.entries(keptByTrainMs).map(([train, keptMs]) => ({ train, rate: keptMs / darkMs }));
}

function startsOf(dates: readonly string[], days: readonly PastDay[]): number[][] {
  const all = days.map((_, i) => i);
  const ofYear = days.map(({ date }) => dayOfYear(date));
  return dates.flatMap((date, i) => {
    if (i % BLOCK_DAYS !== 0) return [];
    const day = dayOfYear(date);
    const near = all.filter((j) => yearDistance(itemAt(ofYear, j), day) <= SEASON_DAYS);
    return [near.length >= SEASON_LEAST ? near : all];
  });
}

function yearDistance(a: number, b: number): number {
  const apart = Math.abs(a - b);
  return Math.min(apart, YEAR_DAYS - apart);
}
