import type { Stamp, StampKind } from './stamp-tokens.js';

const DAY_MS = 86_400_000;
const NOON_MS = DAY_MS / 2;
/** A line under a new day's heading may be about something just before midnight, within this time of the last one. */
const JUST_BEFORE_MS = 15 * 60_000;
const LATE_MS = DAY_MS - 30 * 60_000;

/** A log begins in the afternoon or evening, or in the first hours of the night. */
const SMALL_HOURS_MS = 3 * 3_600_000;

/** A reading of the first half of a day at night: in the second unless it is in the small hours. */
function ofNight(ms: number): number {
  return ms >= SMALL_HOURS_MS && ms < NOON_MS ? ms + NOON_MS : ms;
}

/** The step of least size that is one of these, whole periods apart. */
function nearestStep(stepMs: number, periodMs: number): number {
  return stepMs - Math.round(stepMs / periodMs) * periodMs;
}

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
   * @param isDial hours are those of a dial of twelve, without the half of the day
   */
  constructor(
    private startDateMs: number,
    private startIsEvening: boolean,
    private readonly year: number,
    private readonly areOfEvening: boolean,
    private readonly isDial = false,
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
    if (this.isDial) return this.onDial(stamp);
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

  /** A time of day on a dial of twelve hours, in the half of the day that keeps the log in order. */
  private onDial({ ms }: Stamp): number {
    if (Number.isNaN(this.wallMs)) {
      this.firstMs = this.startDateMs + ofNight(ms) + (this.startIsEvening && ofNight(ms) < NOON_MS ? DAY_MS : 0);
      return this.firstMs;
    }
    return this.wallMs + nearestStep(ms - this.wallMs, NOON_MS);
  }

  /** The same with a date: the half of that day that is nearest to the last reading. */
  private datedOnDial(wallMs: number): number {
    const ofDay = wallMs - Math.floor(wallMs / DAY_MS) * DAY_MS;
    if (Number.isNaN(this.wallMs)) return wallMs - ofDay + ofNight(ofDay);
    return this.wallMs - wallMs > NOON_MS / 2 ? wallMs + NOON_MS : wallMs;
  }

  /** A reading with a date, interpreted according to what the date refers to. @param wallMs as if it were UTC */
  dated(wallMs: number): number {
    if (this.isDial) return this.datedOnDial(wallMs);
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
