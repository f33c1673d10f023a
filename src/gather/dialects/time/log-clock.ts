import { lineEnd, lineStart, type LineBlock } from '../../lines/read-lines.js';
import type { WarningTally } from '../../lines/warning-tally.js';
import { noBase, noBaseInName, noDate } from './clock-messages.js';
import { CountBase, type SectionBase } from './count-base.js';
import { CountTurns } from './count-turns.js';
import { DayOfStamp } from './day-of-stamp.js';
import { offsetIn } from './offsets.js';
import { newStamp, type StampPattern, type StampKind } from './stamp.js';
import { LineCounts } from './line-counts.js';
import type { DateRule, TimeRules } from './time-rules.js';
import { WallClock } from './wall-clock.js';
import type { Zone } from './zone.js';

/**
 * The clock of one log: assigns an instant to every stamp, in line order. It tracks the date of logs that print only
 * the time of day (a step of more than twelve hours is a midnight), which pass of the hour repeated at the end of
 * summer time applies (a backward step begins the second pass), and the base of relative seconds.
 */
export class LogClock {
  /** The instant of the last stamp read, UTC ms; NaN before the first. */
  nowMs = NaN;
  private readonly stamp = newStamp();
  private readonly absolute: readonly StampPattern[];
  private readonly elapsed: readonly StampPattern[];
  private readonly scratch = Buffer.alloc(512);
  /** The offset from UTC of the last header line, minutes, or NaN. */
  private headMinutes = NaN;
  /** The line up to which times since the previous line have been accumulated. */
  private summedLine = 0;
  /** The counts before lines, inside a section or not. */
  readonly counts: LineCounts;
  private readonly turns: CountTurns;
  private readonly days: DayOfStamp;
  private readonly wall: WallClock;

  /**
   * @param zone the zone of readings without an offset
   * @param startDate the date from session or file name, `YYYY-MM-DD` midnight as UTC ms, or NaN
   * @param year the year of dates without one, NaN if unknown
   * @param startIsEvening that date is the evening's: readings before noon belong to the next day
   * @param base what relative times count from before any line states it
   */
  constructor(
    private readonly rules: TimeRules,
    private readonly zone: Zone,
    startDateMs: number,
    startIsEvening: boolean,
    private readonly tally: WarningTally,
    year = NaN,
    private readonly base = new CountBase(),
  ) {
    this.absolute = rules.patterns.filter((pattern) => pattern.kind !== 'elapsed');
    this.elapsed = rules.patterns.filter((pattern) => pattern.kind === 'elapsed');
    this.turns = new CountTurns(rules.wrapsMs);
    this.counts = new LineCounts(this.elapsed, this.turns);
    const isDial = this.absolute.some((pattern) => pattern.isDial);
    this.days = new DayOfStamp(startDateMs, startIsEvening, year, rules.evening, isDial);
    this.wall = new WallClock(zone, tally);
  }

  /** Whether all of a block's stamps must be read: times of day only, or the clock may be set back in it. */
  mustFollow(block: LineBlock): boolean {
    if (this.base.isMidnight || this.rules.since === 'previous' || this.rules.wrapsMs > 0) return true;
    if (this.rules.patterns.some(({ kind }) => kind === 'time' || kind === 'month-day-time')) return true;
    if (!this.zone.changes || this.absolute.every((pattern) => pattern.hasOffset)) return false;
    const first = this.wallNear(block, 0, 1);
    const last = this.wallNear(block, block.count - 1, -1);
    if (Number.isNaN(first + last)) return true;
    const from = this.zone.instants(first);
    const to = this.zone.instants(last);
    return from.firstMs !== from.secondMs || to.firstMs !== to.secondMs || to.firstMs - from.firstMs !== last - first;
  }

  /** The wall clock's reading on the first stamped line from line `i` on. Examines a hundred lines. */
  private wallNear(block: LineBlock, i: number, step: 1 | -1): number {
    for (let tries = 0; tries < 100 && i >= 0 && i < block.count; tries++, i += step) {
      const kind = this.readStamp(this.absolute, block.bytes, lineStart(block, i), lineEnd(block, i));
      if (kind === 'date-time') return this.days.dated(this.stamp.ms);
    }
    return NaN;
  }

  /** Index of the first byte of the last stamp read. */
  get stampStart(): number {
    return this.stamp.start;
  }

  /**
   * Reads the stamp of a line.
   * @returns the index after the stamp, or −1 when the line has none; `nowMs` is then unchanged
   */
  readLine(bytes: Uint8Array, start: number, end: number, line: number): number {
    const counted = this.elapsed.length > 0 ? this.readStamp(this.elapsed, bytes, start, end) : null;
    if (counted !== null) this.counts.keep(line, (this.stamp.ms = this.turns.next(this.stamp.ms)));
    const kind = (Number.isNaN(this.base.ms) ? null : counted) ?? this.readStamp(this.absolute, bytes, start, end);
    if (kind === null) return -1;
    const after = this.stamp.end;
    const atMs = this.instant(kind, line);
    if (Number.isNaN(atMs)) return -1;
    this.nowMs = atMs;
    return after;
  }

  /** Reads a stamp from a group or a column. @returns UTC ms, or NaN */
  readText(text: string, line: number): number {
    return this.readLine(this.scratch, 0, this.scratch.write(text.trim()), line) < 0 ? NaN : this.nowMs;
  }

  /**
   * Reads an additional time in a line, such as the begin of the reported span: a time of day is placed on the date
   * that brings it closest to the line. The clock itself is unchanged.
   *
   * @param nearMs the line's own time, UTC ms
   * @returns UTC ms, or NaN
   */
  readCaught(text: string, nearMs: number, line: number): number {
    const { nowMs } = this;
    const { wallMs } = this.days;
    const length = this.scratch.write(text.trim());
    const patterns = this.rules.caught.length > 0 ? this.rules.caught : this.rules.patterns;
    let atMs = NaN;
    for (const pattern of patterns) {
      if (!pattern.find(this.scratch, 0, length, this.stamp)) continue;
      atMs = this.instant(pattern.kind, line, nearMs);
      break;
    }
    this.nowMs = nowMs;
    this.days.wallMs = wallMs;
    return Number.isNaN(atMs) && !Number.isNaN(nearMs) && patterns.length === 0 ? nearMs : atMs;
  }

  /**
   * Starts a section whose relative seconds count from a time.
   * @param base the base time as captured, or the instant of the line itself (UTC ms, NaN when it has none)
   * @param section the pattern of a captured base time, `null` for the dialect's own, and where it applies
   * @param countMs the counter value at that time, ms
   */
  startSection(base: string | number, { base: pattern, isAbove }: SectionBase, countMs: number, line: number): void {
    const patterns = pattern === null ? this.absolute : [pattern];
    const baseMs = typeof base === 'number' ? base : this.readBase(base, patterns, line);
    this.base.set(baseMs - countMs, pattern?.kind === 'date', isAbove);
    if (Number.isNaN(this.base.ms)) noBase(this.tally, line);
  }

  /** Starts with relative times that count from the instant in the file name. */
  startInName(name: string, pattern: StampPattern): void {
    const length = this.scratch.write(name);
    if (pattern.find(this.scratch, 0, length, this.stamp)) {
      this.base.set(this.instant(pattern.kind, 0), pattern.kind === 'date');
      return;
    }
    noBaseInName(this.tally, name);
  }

  private readBase(text: string, patterns: readonly StampPattern[], line: number): number {
    const kind = this.readStamp(patterns, this.scratch, 0, this.scratch.write(text.trim()));
    const atMs = kind === null ? NaN : this.instant(kind, line);
    if (!Number.isNaN(atMs)) this.nowMs = atMs;
    return atMs;
  }

  /** What the times of the lines above count from as well, once a line has stated it; otherwise `null`. */
  get wholeBase(): CountBase | null {
    return this.base.above;
  }

  endSection(): void {
    this.base.ms = NaN;
  }

  /** Sets the date stated by a header line. @param offset that from UTC of the times below, if it states one */
  setDate(text: string, { pattern, evening }: DateRule & { from: 'header' }, line: number, offset?: string): void {
    this.headMinutes = offset === undefined ? NaN : offsetIn(offset);
    const length = this.scratch.write(text.trim());
    if (pattern.find(this.scratch, 0, length, this.stamp)) this.days.setDate(this.stamp, pattern.kind, evening);
    else noDate(this.tally, line);
  }

  /** A table begins below another: its times continue from the start of the log, not the end of the previous table. */
  beginTable(): void {
    this.days.startAnew();
    this.wall.startAnew();
    this.nowMs = NaN;
    this.base.startAnew();
  }

  /** Reports remaining ambiguities. Call once, at the end. */
  finish(): void {
    this.wall.finish();
  }

  private readStamp(
    patterns: readonly StampPattern[],
    bytes: Uint8Array,
    start: number,
    end: number,
  ): StampKind | null {
    for (const pattern of patterns) {
      if (pattern.readIn(this.rules.at, bytes, start, end, this.stamp)) return pattern.kind;
    }
    return null;
  }

  private instant(kind: StampKind, line: number, nearMs = NaN): number {
    const { aheadMs } = this.rules;
    return kind === 'elapsed' || aheadMs === 0
      ? this.asShown(kind, line, nearMs)
      : this.asShown(kind, line, nearMs) - aheadMs;
  }

  private asShown(kind: StampKind, line: number, nearMs: number): number {
    switch (kind) {
      case 'epoch':
        return this.stamp.ms;
      case 'elapsed':
        if (this.rules.since === 'previous') return this.afterPrevious(line, nearMs);
        return Number.isNaN(nearMs)
          ? this.base.at(this.stamp.ms, this.nowMs)
          : this.turns.near(this.base.at(this.stamp.ms, this.nowMs), nearMs);
      case 'date-time':
        return this.fromWall(this.days.dated(this.stamp.ms), line, nearMs);
      case 'date':
      case 'month-day':
      case 'year':
        return this.fromWall(this.stamp.ms, line, nearMs);
      case 'time':
        return this.fromWall(this.days.timeOfDay(this.stamp), line, nearMs);
      case 'month-day-time':
        return this.fromWall(this.days.dated(this.days.monthDay(this.stamp)), line, nearMs);
    }
  }

  /** A line's time is read more than once, but elapses once. @param nearMs NaN if the time is the line's own */
  private afterPrevious(line: number, nearMs: number): number {
    if (!Number.isNaN(nearMs)) return nearMs + this.stamp.ms;
    if (line !== this.summedLine) this.base.ms += this.stamp.ms;
    this.summedLine = line;
    return this.base.ms;
  }

  /** @param nearMs of two instants the one closer to this is used; NaN: the order of the log decides */
  private fromWall(wallMs: number, line: number, nearMs: number): number {
    if (Number.isNaN(wallMs)) return NaN;
    this.days.wallMs = wallMs;
    const minutes = Number.isNaN(this.stamp.offsetMinutes) ? this.headMinutes : this.stamp.offsetMinutes;
    if (!Number.isNaN(minutes)) return wallMs - minutes * 60_000;
    if (!Number.isNaN(nearMs)) return this.wall.nearest(wallMs, nearMs);
    return this.wall.instant(wallMs, this.nowMs, line, this.stamp.pass);
  }
}
