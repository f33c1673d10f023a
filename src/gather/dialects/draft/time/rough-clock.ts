import { dayPart, hourIn, PART_BEFORE, PART_BEHIND } from '../../time/day-parts.js';
import { nearestYear, underEvening } from '../../time/day-of-stamp.js';
import type { StampGuess } from './guess.js';
import { newStamp, type Stamp, StampPattern, type StampPlace } from '../../time/stamp.js';

const DAY_MS = 86_400_000;
const MINUTE_MS = 60_000;
/** A counter that restarts returns to at most this fraction of its value. */
const ANEW = 0.2;

/**
 * Estimates how far apart the lines of a log are, before its date and zone are known: times of day continue past
 * midnight, relative times past the beginning of the next section.
 */
export class RoughClock {
  private readonly pattern: StampPattern;
  private readonly others: readonly StampPattern[];
  /** Other forms of the same counter. */
  private readonly alike: readonly StampPattern[];
  private readonly stamp: Stamp = newStamp();
  private lastMs = NaN;
  private offsetMs = 0;
  /** If the first form is a counter: offset of the others' instants since its last restart; NaN if unknown. */
  private anchorMs = NaN;
  /** How far ahead of universal time the first stamp's clock is, minutes; NaN if it does not say. */
  private firstOffset = NaN;

  constructor(
    source: string,
    private readonly at: StampPlace,
    more: readonly string[] = [],
    private readonly since: StampGuess['since'] = undefined,
    private readonly othersAheadMs = 0,
    private readonly evening = false,
    private readonly nearMs = NaN,
    private readonly wrapsMs = 0,
  ) {
    this.pattern = new StampPattern(source);
    const others = more.map((one) => new StampPattern(one));
    const isCount = (one: StampPattern): boolean => this.kind === 'elapsed' && one.kind === 'elapsed';
    this.alike = others.filter(isCount);
    this.others = others.filter((one) => !isCount(one));
  }

  /** The clock of a log whose stamps are known. */
  static of({ pattern, at, more, since, moreAheadMs, evening, nearMs, wraps = 0 }: StampGuess): RoughClock {
    return new RoughClock(pattern, at, more, since, moreAheadMs, evening, nearMs, wraps * 1000);
  }

  get kind(): StampPattern['kind'] {
    return this.pattern.kind;
  }

  /** Begins a section: counts are relative to this instant, ms. */
  startAt(baseMs: number): void {
    this.offsetMs = baseMs;
  }

  /**
   * How far the clock of the stamp that was read last is behind that of the first, ms: an hour where stamps state their
   * offset and clocks were set back in between.
   */
  behindMs(): number {
    const { offsetMinutes } = this.stamp;
    if (Number.isNaN(offsetMinutes)) return 0;
    if (Number.isNaN(this.firstOffset)) this.firstOffset = offsetMinutes;
    return (this.firstOffset - offsetMinutes) * MINUTE_MS;
  }

  /** Reads the stamp of a text. @returns its time in ms, the part added by its section, and the text after it */
  read(text: string): { atMs: number; addedMs: number; rest: string } | null {
    const bytes = Buffer.from(text);
    const isOwn = (one: StampPattern): boolean => one.readIn(this.at, bytes, 0, bytes.length, this.stamp);
    if (!isOwn(this.pattern) && !this.alike.some(isOwn)) return this.readOther(text, bytes);
    if (this.since === 'previous') {
      this.lastMs = (Number.isNaN(this.lastMs) ? 0 : this.lastMs) + this.stamp.ms;
      return { atMs: this.lastMs, addedMs: 0, rest: this.restOf(text, bytes) };
    }
    this.stamp.ms = this.inYear(this.pattern, this.stamp.ms);
    if (this.evening) this.stamp.ms = underEvening(this.stamp.ms);
    let atMs = this.stamp.ms + this.offsetMs;
    // Rows logged at their end may go back by much; a counter that restarts begins near zero.
    const restarts =
      this.kind === 'elapsed' && atMs < this.lastMs - 10_000 && this.stamp.ms < ANEW * (this.lastMs - this.offsetMs);
    if (restarts) {
      this.offsetMs = this.wrapsMs > 0 ? this.offsetMs + this.wrapsMs : this.lastMs - this.stamp.ms;
      this.anchorMs = NaN;
    }
    if (this.kind === 'time' && !this.pattern.isDial && atMs < this.lastMs - DAY_MS / 2) this.offsetMs += DAY_MS;
    if (this.pattern.isDial) this.offsetMs = this.onDial(this.stamp.ms);
    atMs = this.stamp.ms + this.offsetMs;
    this.lastMs = atMs;
    return {
      atMs,
      addedMs: this.offsetMs,
      rest: this.restOf(text, bytes),
    };
  }

  /** On a dial of twelve hours, what keeps the log in order; a log begins in the evening. */
  private onDial(ms: number): number {
    const halves = Number.isNaN(this.lastMs) ? 1 : Math.round((this.lastMs - ms) / (DAY_MS / 2));
    return (
      (this.kind === 'time' || Number.isNaN(this.lastMs) ? halves : Math.min(1, Math.max(0, halves))) * (DAY_MS / 2)
    );
  }

  /** Reads a stamp of another form, on the previous line's date if it has none. */
  private readOther(text: string, bytes: Buffer): { atMs: number; addedMs: number; rest: string } | null {
    const other = this.others.find((one) => one.readIn(this.at, bytes, 0, bytes.length, this.stamp));
    if (other === undefined) return null;
    if (this.kind === 'elapsed' && Number.isNaN(this.anchorMs))
      this.anchorMs = this.stamp.ms - (Number.isNaN(this.lastMs) ? 0 : this.lastMs);
    const ms = this.inYear(other, this.stamp.ms) - (this.kind === 'elapsed' ? this.anchorMs : this.othersAheadMs);
    const isOfDay = (other.kind === 'time') !== (this.kind === 'time') && !Number.isNaN(this.lastMs);
    const atMs = isOfDay ? ms + Math.round((this.lastMs - ms) / DAY_MS) * DAY_MS : ms;
    this.lastMs = atMs;
    return { atMs, addedMs: 0, rest: this.restOf(text, bytes) };
  }

  /** A stamp without a year beside those that have one: in their year. */
  private inYear({ kind }: StampPattern, ms: number): number {
    if (kind !== 'month-day-time' || Number.isNaN(this.nearMs)) return ms;
    const day = new Date(ms);
    const [month, date] = [day.getUTCMonth() + 1, day.getUTCDate()];
    return Date.UTC(nearestYear(this.nearMs, month, date), month - 1, date) + (ms % DAY_MS);
  }

  private restOf(text: string, bytes: Buffer): string {
    if (this.at === 'anywhere') return text;
    return (this.at === 'end' ? bytes.subarray(0, this.stamp.start) : bytes.subarray(this.stamp.end)).toString('utf8');
  }
}

/** Seconds since 1970 with decimals, or milliseconds. */
const EPOCH = /^(1\d{9})([.,]\d+|(?:\d{3}){1,3})?$/;
const DAYS = /^(24\d{5}|6\d{4})[.,](\d{4,12})$/;
const CLOCK = new RegExp(
  String.raw`(${PART_BEFORE})?\s?(\d{1,2})\s?[:h.時时点點]\s?(\d{1,2})` +
    String.raw`(?:\s?(?:[:m.分]|min|mn)\.?\s?(\d{1,2})(?:[.,](\d+))?)?(${PART_BEHIND})?`,
  'iu',
);

/**
 * The instant of a time of day in a line, on the date that brings it closest to the line's own; NaN if there is none.
 */
export function nearTime(clock: string, lineMs: number): number {
  const time = clock
    .replace(/^\d{1,4}[-./]\d{1,2}[-./]\d{2,4}[T ]\s?/, '')
    .replace(/^\d{1,2}(?:[-/]\d{1,2}|\.\s?\d{1,2}\.)\s(?=\d{1,2}[:.h]\d{2})/, '')
    .replace(/^(?:20\d{2}[-/.:]?)?[0-3]\d{2}[/T :.-](?=\d{1,2}[:.]\d{2}[:.]\d{2})/, '')
    .replace(/^20\d{6}[T_](\d{2})(\d{2})(\d{2})/, '$1:$2:$3');
  const [, seconds0, milliseconds = '0'] = EPOCH.exec(clock) ?? [];
  if (seconds0 !== undefined)
    return Number(seconds0) * 1000 + Number(`${milliseconds.replace(/^[.,]/, '')}00`.slice(0, 3));
  const [, days, ofDay] = DAYS.exec(clock) ?? [];
  if (days !== undefined) return instantOf(days, Number(`0.${ofDay}`));
  const match = CLOCK.exec(time);
  if (match === null || Number.isNaN(lineMs)) return NaN;
  const [, half0, hours = '0', minutes = '0', seconds = '0', fraction = '0', half1] = match;
  const part = dayPart((half0 ?? half1 ?? '').trim())?.part;
  const hour = part === undefined ? Number(hours) : hourIn(part, Number(hours));
  const ofDayMs = (hour * 3600 + Number(minutes) * 60 + Number(`${seconds}.${fraction}`)) * 1000;
  const sameDay = Math.floor(lineMs / DAY_MS) * DAY_MS + ofDayMs;
  return [sameDay - DAY_MS, sameDay, sameDay + DAY_MS].reduce((a, b) =>
    Math.abs(b - lineMs) < Math.abs(a - lineMs) ? b : a,
  );
}

/** The instant of a Julian date, or of a modified one, whose days begin at midnight (IAU 1997), ms. */
function instantOf(days: string, ofDay: number): number {
  const sinceMidnight = days.length > 5 ? Number(days) - JULIAN_1970 : Number(days) - MODIFIED_1970;
  return Math.round((sinceMidnight + ofDay) * DAY_MS);
}
const JULIAN_1970 = 2_440_587.5;
const MODIFIED_1970 = 40_587;
