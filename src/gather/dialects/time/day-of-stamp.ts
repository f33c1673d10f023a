import type { Stamp, StampKind } from './stamp-tokens.js';

const DAY_MS = 86_400_000;
const NOON_MS = DAY_MS / 2;
/** A line under a new day's heading may be about something just before midnight, within this time of the last one. */
const JUST_BEFORE_MS = 15 * 60_000;
const LATE_MS = DAY_MS - 30 * 60_000;

/** A reading dated by its evening: before noon it belongs to the next day. @param wallMs as if it were UTC */
export function underEvening(wallMs: number): number {
  return wallMs - Math.floor(wallMs / DAY_MS) * DAY_MS < NOON_MS ? wallMs + DAY_MS : wallMs;
}

/** The year in which a month and a day are nearest to an instant. @param nearMs as if it were UTC */
export function nearestYear(nearMs: number, month: number, day: number): number {
  const year = new Date(nearMs).getUTCFullYear();
  const away = (candidate: number): number => Math.abs(Date.UTC(candidate, month - 1, day) - nearMs);
  return [year - 1, year, year + 1].reduce((a, b) => (away(b) < away(a) ? b : a));
}

/**
 * Dates of stamps without one: from the session, the file name or a header line, and from then on the date that keeps
 * the log in order.
 */
export class DayOfStamp {
  /** The wall clock's last reading, as if it were UTC, ms. */
  wallMs = NaN;
  /** The last reading before the date was restated. */
  private beforeMs = NaN;
  /** The first reading since the date was restated. */
  private firstMs = NaN;

  /**
   * @param startDateMs the date that stamps start from, UTC midnight in ms, or NaN
   * @param startIsEvening that date is the evening's: readings before noon belong to the next day
   * @param year the year of dates without one, NaN if unknown
   * @param areOfEvening the dates in stamps are those of their evenings
   */
  constructor(
    private startDateMs: number,
    private startIsEvening: boolean,
    private readonly year: number,
    private readonly areOfEvening: boolean,
  ) {}

  /** Sets the date stated by a header line. */
  setDate(stamp: Stamp, kind: StampKind, evening: boolean): void {
    const near = Number.isNaN(this.wallMs) ? this.startDateMs : this.wallMs;
    this.startDateMs =
      kind === 'month-day'
        ? Date.UTC(
            Number.isNaN(near) ? this.year : nearestYear(near, stamp.month, stamp.day),
            stamp.month - 1,
            stamp.day,
          )
        : Math.floor(stamp.ms / DAY_MS) * DAY_MS;
    this.startIsEvening = evening;
    this.beforeMs = this.wallMs;
    if (kind === 'year') return;
    this.wallMs = kind === 'date-time' ? stamp.ms : NaN;
    this.firstMs = this.wallMs;
  }

  /** Later readings are of the whole night again. */
  startAnew(): void {
    this.beforeMs = NaN;
    this.wallMs = this.startIsEvening ? NaN : this.firstMs;
  }

  /** The time of day on the date that keeps the log in order: nearest to the previous reading. */
  timeOfDay(stamp: Stamp): number {
    if (Number.isNaN(this.wallMs)) {
      const late = this.startIsEvening && stamp.ms < NOON_MS;
      const atMs = this.startDateMs + stamp.ms + (late ? DAY_MS : 0);
      this.firstMs = this.isOfDayBefore(atMs) ? atMs - DAY_MS : atMs;
      return this.firstMs;
    }
    const sameDay = Math.floor(this.wallMs / DAY_MS) * DAY_MS + stamp.ms;
    const step = sameDay - this.wallMs;
    return step < -NOON_MS ? sameDay + DAY_MS : step > NOON_MS ? sameDay - DAY_MS : sameDay;
  }

  /** A reading with a date, interpreted according to what the date refers to. @param wallMs as if it were UTC */
  dated(wallMs: number): number {
    return this.areOfEvening ? underEvening(wallMs) : wallMs;
  }

  /** The month and day in the year nearest to the previous reading, or to the start date. */
  monthDay(stamp: Stamp): number {
    const near = Number.isNaN(this.wallMs) ? this.startDateMs : this.wallMs;
    if (Number.isNaN(near)) return NaN;
    return Date.UTC(nearestYear(near, stamp.month, stamp.day), stamp.month - 1, stamp.day) + (stamp.ms % DAY_MS);
  }

  /** Whether a reading under a new date, moved a day back, continues from the last one under the old date. */
  private isOfDayBefore(atMs: number): boolean {
    const awayMs = atMs - DAY_MS - this.beforeMs;
    const isLate = atMs - Math.floor(atMs / DAY_MS) * DAY_MS > LATE_MS;
    return isLate && atMs - this.beforeMs > NOON_MS && Math.abs(awayMs) < JUST_BEFORE_MS;
  }
}
