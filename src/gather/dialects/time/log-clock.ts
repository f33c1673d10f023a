import type { Pattern } from '../pattern/pattern.js';
import { lineEnd, lineStart, type LineBlock } from '../../lines/read-lines.js';
import type { WarningTally } from '../../lines/warning-tally.js';
import { newStamp, type Stamp, type StampKind, type StampPattern } from './stamp.js';
import type { Zone } from './zone.js';

const DAY_MS = 86_400_000;
const NOON_MS = DAY_MS / 2;

/** Lines of one log may stand this much out of order without meaning that the clock was put back. */
const JITTER_MS = 5000;

/** Where the date of a line comes from when its stamp has none. */
export type DateRule =
  | { readonly from: 'line' }
  | { readonly from: 'session' }
  | { readonly from: 'file'; readonly pattern: StampPattern; readonly evening: boolean }
  | {
      readonly from: 'header';
      readonly when: Pattern;
      readonly pattern: StampPattern;
      readonly evening: boolean;
      /** The year of dates that are stated without one: a number, or the one in the file's name. */
      readonly year: number | 'file' | undefined;
    };

/** How a dialect tells time. */
export interface TimeRules {
  /** Tried in order. */
  readonly patterns: readonly StampPattern[];
  /** Whether the stamp may stand anywhere in the line, not at its start alone. */
  readonly anywhere: boolean;
  /** `site`: whatever zone the rig file gives. */
  readonly zone: Zone | 'site';
  readonly date: DateRule;
  /** Whether a line without a stamp has the time of the last line with one. */
  readonly carry: boolean;
  /** Patterns of times that groups and cells hold besides the line's own; empty: those of the lines. */
  readonly caught: readonly StampPattern[];
}

/**
 * The clock of one log: gives every stamp its instant, in the order of the lines. It knows the date of logs that
 * print the time of day alone (a step of more than twelve hours is a midnight), the pass of an hour that the end
 * of summer time repeats (a step back is the second pass), and the base of relative seconds.
 */
export class LogClock {
  /** The instant of the last stamp read, UTC ms; NaN before the first. */
  nowMs = NaN;
  private readonly stamp = newStamp();
  private readonly absolute: readonly StampPattern[];
  private readonly elapsed: readonly StampPattern[];
  private readonly scratch = Buffer.alloc(512);
  private baseMs = NaN;
  /** The wall clock's last reading, as if it were UTC, ms. */
  private wallMs = NaN;
  /** The date (as UTC midnight, ms) that stamps without one start from, while it has not been used. */
  private startDateMs = NaN;
  private startIsEvening = false;
  private firstRepeatedLine = 0;
  private repeatedReadings = 0;
  private sawStepBack = false;
  private lastWasRepeated = false;

  /**
   * @param zone the zone of readings without an offset
   * @param startDate the date from session or file name, `YYYY-MM-DD` midnight as UTC ms, or NaN
   * @param year the year of dates that are stated without one, NaN where none is known
   * @param startIsEvening that date is the evening's: readings before noon belong to the next day
   */
  constructor(
    private readonly rules: TimeRules,
    private readonly zone: Zone,
    startDateMs: number,
    startIsEvening: boolean,
    private readonly tally: WarningTally,
    private readonly year = NaN,
  ) {
    this.absolute = rules.patterns.filter((pattern) => pattern.kind !== 'elapsed');
    this.elapsed = rules.patterns.filter((pattern) => pattern.kind === 'elapsed');
    this.startDateMs = startDateMs;
    this.startIsEvening = startIsEvening;
  }

  /**
   * Whether every line's stamp of the block must be read for the sake of those that count: time of day alone, or
   * a block in which the clock may be put back.
   */
  mustFollow(block: LineBlock): boolean {
    if (this.rules.patterns.some((pattern) => pattern.kind === 'time' || pattern.kind === 'month-day-time'))
      return true;
    if (!this.zone.changes || this.absolute.every((pattern) => pattern.hasOffset)) return false;
    const first = this.wallNear(block, 0, 1);
    const last = this.wallNear(block, block.count - 1, -1);
    if (Number.isNaN(first + last)) return true;
    const from = this.zone.instants(first);
    const to = this.zone.instants(last);
    return from.firstMs !== from.secondMs || to.firstMs !== to.secondMs || to.firstMs - from.firstMs !== last - first;
  }

  /** The wall clock's reading on the first line with a stamp from line `i` on. Looks at a hundred lines. */
  private wallNear(block: LineBlock, i: number, step: 1 | -1): number {
    for (let tries = 0; tries < 100 && i >= 0 && i < block.count; tries++, i += step) {
      const kind = this.readStamp(this.absolute, block.bytes, lineStart(block, i), lineEnd(block, i));
      if (kind === 'date-time') return this.stamp.ms;
    }
    return NaN;
  }

  /**
   * Reads the stamp of a line.
   *
   * @returns the index after the stamp, or −1 when the line has none; `nowMs` is then as before
   */
  readLine(bytes: Uint8Array, start: number, end: number, line: number): number {
    const inSection = !Number.isNaN(this.baseMs) && this.elapsed.length > 0;
    const kind =
      (inSection ? this.readStamp(this.elapsed, bytes, start, end) : null) ??
      this.readStamp(this.absolute, bytes, start, end);
    if (kind === null) return -1;
    const after = this.stamp.end;
    const atMs = this.instant(kind, line);
    if (Number.isNaN(atMs)) return -1;
    this.nowMs = atMs;
    return after;
  }

  /** Reads a stamp that was caught by a group or stands in a column. @returns UTC ms, or NaN */
  readText(text: string, line: number): number {
    const length = this.scratch.write(text.trim());
    return this.readLine(this.scratch, 0, length, line) < 0 ? NaN : this.nowMs;
  }

  /**
   * Reads a time that a line states besides its own, such as the beginning of what the line reports: a time of day
   * is taken on the day that brings it nearest to the line. The clock itself goes on unchanged.
   *
   * @param nearMs the line's own time, UTC ms
   * @returns UTC ms, or NaN
   */
  readCaught(text: string, nearMs: number, line: number): number {
    const { nowMs, wallMs } = this;
    const length = this.scratch.write(text.trim());
    const patterns = this.rules.caught.length > 0 ? this.rules.caught : this.rules.patterns;
    let atMs = NaN;
    for (const pattern of patterns) {
      if (!pattern.find(this.scratch, 0, length, this.stamp)) continue;
      atMs = this.instant(pattern.kind, line);
      break;
    }
    this.nowMs = nowMs;
    this.wallMs = wallMs;
    return Number.isNaN(atMs) && !Number.isNaN(nearMs) && patterns.length === 0 ? nearMs : atMs;
  }

  /**
   * Starts a section whose relative seconds count from the given time.
   *
   * @param base the base time as captured, or the instant of the line itself (UTC ms, NaN when it has none)
   * @param pattern the pattern of a captured base time, or `null` for the dialect's own
   */
  startSection(base: string | number, pattern: StampPattern | null, line: number): void {
    this.baseMs =
      typeof base === 'number' ? base : this.readBase(base, pattern === null ? this.absolute : [pattern], line);
    if (Number.isNaN(this.baseMs)) {
      this.tally.add(
        'unreadable-time',
        line,
        () => `Line ${line} begins a section, but its time cannot be read; check "base" of the section against it.`,
        'section',
      );
    }
  }

  private readBase(text: string, patterns: readonly StampPattern[], line: number): number {
    const length = this.scratch.write(text.trim());
    const kind = this.readStamp(patterns, this.scratch, 0, length);
    const atMs = kind === null ? NaN : this.instant(kind, line);
    if (!Number.isNaN(atMs)) this.nowMs = atMs;
    return atMs;
  }

  endSection(): void {
    this.baseMs = NaN;
  }

  /** Takes the date that a header line states. */
  setDate(text: string, pattern: StampPattern, evening: boolean, line: number): void {
    const length = this.scratch.write(text.trim());
    if (!pattern.find(this.scratch, 0, length, this.stamp)) {
      this.tally.add(
        'unreadable-date',
        line,
        () =>
          `Line ${line} states the date, but not in the form of "date.pattern"; correct the pattern in the dialect.`,
      );
      return;
    }
    const near = Number.isNaN(this.wallMs) ? this.startDateMs : this.wallMs;
    this.startDateMs =
      pattern.kind === 'month-day'
        ? Date.UTC(Number.isNaN(near) ? this.year : this.yearNear(near), this.stamp.month - 1, this.stamp.day)
        : Math.floor(this.stamp.ms / DAY_MS) * DAY_MS;
    this.startIsEvening = evening;
    this.wallMs = pattern.kind === 'date-time' ? this.stamp.ms : NaN;
  }

  /** Tells what stayed in doubt. Call once, at the end. */
  finish(): void {
    if (this.repeatedReadings > 0 && !this.sawStepBack) {
      this.tally.add(
        'repeated-hour',
        this.firstRepeatedLine,
        () =>
          `From line ${this.firstRepeatedLine} on, ${this.repeatedReadings} times fall into the hour ` +
          'that the end of summer time repeats, and the log never steps back; they were read as its ' +
          'first pass. Compare with the frames.',
      );
    }
  }

  private readStamp(
    patterns: readonly StampPattern[],
    bytes: Uint8Array,
    start: number,
    end: number,
  ): StampKind | null {
    for (const pattern of patterns) {
      const found = this.rules.anywhere
        ? pattern.find(bytes, start, Math.min(end, start + 512), this.stamp)
        : pattern.readAt(bytes, start, end, this.stamp);
      if (found) return pattern.kind;
    }
    return null;
  }

  private instant(kind: StampKind, line: number): number {
    switch (kind) {
      case 'epoch':
        return this.stamp.ms;
      case 'elapsed':
        return this.baseMs + this.stamp.ms;
      case 'date-time':
      case 'date':
      case 'month-day':
        return this.fromWall(this.stamp.ms, line);
      case 'time':
        return this.fromWall(this.datedTime(this.stamp), line);
      case 'month-day-time':
        return this.fromWall(this.datedMonthDay(this.stamp), line);
    }
  }

  /** The time of day on the day that keeps the log going: nearest to the reading before it. */
  private datedTime(stamp: Stamp): number {
    if (Number.isNaN(this.wallMs)) {
      const late = this.startIsEvening && stamp.ms < NOON_MS;
      return this.startDateMs + stamp.ms + (late ? DAY_MS : 0);
    }
    const sameDay = Math.floor(this.wallMs / DAY_MS) * DAY_MS + stamp.ms;
    const step = sameDay - this.wallMs;
    return step < -NOON_MS ? sameDay + DAY_MS : step > NOON_MS ? sameDay - DAY_MS : sameDay;
  }

  /** The day of the month in the year nearest to the reading before it, or to the start date. */
  private datedMonthDay(stamp: Stamp): number {
    const near = Number.isNaN(this.wallMs) ? this.startDateMs : this.wallMs;
    if (Number.isNaN(near)) return NaN;
    return Date.UTC(this.yearNear(near), stamp.month - 1, stamp.day) + (stamp.ms % DAY_MS);
  }

  /** The year in which the month and day of the stamp are nearest to an instant. */
  private yearNear(near: number): number {
    const year = new Date(near).getUTCFullYear();
    const away = (candidate: number): number =>
      Math.abs(Date.UTC(candidate, this.stamp.month - 1, this.stamp.day) - near);
    return [year - 1, year, year + 1].reduce((a, b) => (away(b) < away(a) ? b : a));
  }

  private fromWall(wallMs: number, line: number): number {
    if (Number.isNaN(wallMs)) return NaN;
    this.wallMs = wallMs;
    if (!Number.isNaN(this.stamp.offsetMinutes)) return wallMs - this.stamp.offsetMinutes * 60_000;
    const { firstMs, secondMs, skipped } = this.zone.instants(wallMs);
    if (skipped) {
      this.tally.add(
        'skipped-hour',
        line,
        () =>
          `Line ${line}: the clock of ${this.zone.name} is put forward over this time; it was read ` +
          'as if it had not been. Check "zone" in the dialect.',
      );
    }
    if (firstMs === secondMs) {
      this.lastWasRepeated = false;
      return firstMs;
    }
    this.repeatedReadings++;
    if (this.firstRepeatedLine === 0) this.firstRepeatedLine = line;
    const isSecond = firstMs < this.nowMs - JITTER_MS;
    if (isSecond && this.lastWasRepeated) this.sawStepBack = true;
    this.lastWasRepeated = true;
    return isSecond ? secondMs : firstMs;
  }
}
