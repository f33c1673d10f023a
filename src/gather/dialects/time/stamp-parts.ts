import { daysFromCivil, wallMs } from '../../lines/civil-time.js';
import { after, digits, hasColon, isDigit, next2, numberEnd, POINT, skipEnd, upTo2, wordEnd } from './bytes.js';
import {
  readCount,
  readDayFraction,
  readDays,
  readDecimalMinute,
  readHex,
  readNanoseconds,
  readOfDay,
  readSpelt,
  readThousandths,
  sinceEpoch,
  type Count,
} from './counts.js';
import { passOf } from './repeated-hour.js';
import { dayPart, hourIn, LONGEST_PART, type Part } from './day-parts.js';
import { eraYear } from './eras.js';
import { weekDate, type ReadDate } from './week-dates.js';
import { monthNumber } from './month-names.js';
import type { Stamp, StampKind, TimeToken } from './stamp-tokens.js';
import { readOffset } from './offsets.js';

/** Julian date and modified Julian date of 1970-01-01 00:00 UTC (IAU definitions: MJD = JD − 2400000.5). */
const JULIAN_OF_EPOCH = 2_440_587.5;
const MJD_OF_EPOCH = 40_587;
/**
 * 1970-01-01 in days since 1899-12-30, the spreadsheet date origin (ISO/IEC 29500-1, 18.17.4: the 1900 date system).
 */
const SERIAL_OF_EPOCH = 25_569;
const DAY_MS = 86_400_000;

/** The placeholders' values while a stamp is being read. */
export class StampParts {
  private year = 0;
  private month = 0;
  private day = 0;
  private hour = 0;
  private minute = 0;
  private second = 0;
  private ms = 0;
  private pass: Stamp['pass'] = 0;
  private part: Part = 'morning';
  private offset = NaN;
  private count = NaN; // ms since 1970 or the base: counts, or days that may have a time of day beside them
  private dayOfYear = 0;
  private ofDayMs = 0; // instead of hours, minutes and seconds
  private laterDays = 0; // by which hours beyond 24 exceed the date

  reset(): void {
    this.year =
      this.month =
      this.day =
      this.hour =
      this.minute =
      this.second =
      this.ms =
      this.dayOfYear =
      this.ofDayMs =
      this.laterDays =
      this.pass =
        0;
    this.offset = NaN;
    this.count = NaN;
    this.part = 'morning';
  }

  /** Reads one placeholder at `i`. @param perCount ms per unit of a count @returns the index after it, or −1 */
  read(
    token: TimeToken,
    bytes: Uint8Array,
    i: number,
    end: number,
    marks: ReadonlySet<number>,
    perCount: number,
  ): number {
    switch (token) {
      case 'year':
        this.year = digits(bytes, i, Math.min(end, i + 4), 4);
        return after(i + 4, this.year);
      case 'year2':
        this.year = 2000 + digits(bytes, i, Math.min(end, i + 2), 2);
        return after(i + 2, this.year);
      case 'era-year':
        return this.dated(eraYear(bytes, i, end));
      case 'month':
        this.month = upTo2(bytes, i, end);
        return next2(bytes, i, this.month);
      case 'day':
        this.day = upTo2(bytes, i, end);
        return next2(bytes, i, this.day);
      case 'day-of-year':
        this.dayOfYear = digits(bytes, i, Math.min(end, i + 3), 3);
        return after(i + 3, this.dayOfYear);
      case 'week-date':
        return this.dated(weekDate(bytes, i, end));
      case 'day-fraction':
        return this.ofDay(readDayFraction(bytes, i, end));
      case 'serial-day':
        return this.counted(readDays(bytes, i, end, SERIAL_OF_EPOCH));
      case 'night-hour': {
        const hour = upTo2(bytes, i, end);
        this.hour = hour < 48 ? hour % 24 : NaN;
        this.laterDays = hour < 24 ? 0 : 1;
        return next2(bytes, i, this.hour);
      }
      case 'hour':
      case 'hour12':
        this.hour = upTo2(bytes, i, end);
        this.pass = passOf(bytes, next2(bytes, i, this.hour), end);
        return next2(bytes, i, this.hour) + (this.pass === 0 || Number.isNaN(this.hour) ? 0 : 1);
      case 'minute':
        this.minute = upTo2(bytes, i, end);
        return next2(bytes, i, this.minute);
      case 'decimal-minute':
        return this.ofDay(readDecimalMinute(bytes, i, end));
      case 'second':
        this.second = upTo2(bytes, i, end);
        return this.readFraction(bytes, next2(bytes, i, this.second), end, marks);
      case 'fraction':
        return this.fractionDigits(bytes, i, end);
      case 'month-name':
        return this.readMonthName(bytes, i, end);
      case 'weekday':
        return wordEnd(bytes, i, end);
      case 'am-pm':
        return this.readPart(bytes, i, end);
      case 'offset':
        return this.zoned(readOffset(bytes, i, end));
      case 'epoch':
        return this.counted(sinceEpoch(readCount(bytes, i, end, perCount, false)));
      case 'elapsed':
        return this.counted(readCount(bytes, i, end, perCount, Math.abs(perCount) === 1000));
      case 'elapsed-hex':
        return this.counted(readHex(bytes, i, end, perCount));
      case 'epoch-hex':
        return this.counted(sinceEpoch(readHex(bytes, i, end, perCount)));
      case 'elapsed-clock':
        return hasColon(bytes, i, end) ? this.counted(readCount(bytes, i, end, 1000, true)) : -1;
      case 'epoch-ms':
        return this.counted(sinceEpoch(readCount(bytes, i, end, 1, false)));
      case 'elapsed-ms':
        return this.counted(readCount(bytes, i, end, 1, false));
      case 'epoch-us':
        return this.counted(sinceEpoch(readCount(bytes, i, end, 0.001, false)));
      case 'epoch-ns':
        return this.counted(sinceEpoch(readNanoseconds(bytes, i, end)));
      case 'elapsed-spelt':
        return this.counted(readSpelt(bytes, i, end));
      case 'day-second':
      case 'day-ms':
        return this.ofDay(readOfDay(bytes, i, end, token === 'day-ms' ? 1 : perCount));
      case 'julian':
        return this.counted(sinceEpoch(readDays(bytes, i, end, JULIAN_OF_EPOCH)));
      case 'mjd':
        return this.counted(sinceEpoch(readDays(bytes, i, end, MJD_OF_EPOCH)));
      case 'skip':
        return skipEnd(bytes, i, end);
      case 'number':
      case 'digit':
        return numberEnd(bytes, i, token === 'digit' ? Math.min(end, i + 1) : end);
    }
  }

  into(stamp: Stamp, kind: StampKind, half: boolean, end: number): boolean {
    if (half) this.hour = hourIn(this.part, this.hour);
    const ms = this.msOf(kind);
    if (Number.isNaN(ms)) return false;
    stamp.ms = ms;
    stamp.offsetMinutes = this.offset;
    stamp.pass = this.pass;
    // The day of the year is a day of January, however many that has.
    stamp.month = this.dayOfYear > 0 ? 1 : this.month;
    stamp.day = this.dayOfYear > 0 ? this.dayOfYear : this.day;
    stamp.end = end;
    return true;
  }

  private msOf(kind: StampKind): number {
    if (kind === 'epoch' || kind === 'elapsed') return this.count;
    if (kind === 'time') return this.wall(1970, 1, 1);
    // The middle of the year: every day of it is closer than one of another year.
    if (kind === 'year') return this.wall(this.year, 7, 2);
    if (kind === 'month-day-time' && this.dayOfYear > 0) return this.wall(2000, 1, 1) + (this.dayOfYear - 1) * DAY_MS;
    // 2000 is a leap year: 29 February is accepted, and the true year is found later.
    if (kind.startsWith('month-day')) return this.wall(2000, this.month, this.day);
    if (!Number.isNaN(this.count)) return this.count + this.wall(1970, 1, 1);
    if (this.dayOfYear === 0) return this.wall(this.year, this.month, this.day) + this.laterDays * DAY_MS;
    const first = this.wall(this.year, 1, 1);
    const days = daysFromCivil(this.year + 1, 1, 1) - daysFromCivil(this.year, 1, 1);
    return this.dayOfYear <= days ? first + (this.dayOfYear - 1) * DAY_MS : NaN;
  }

  private wall(year: number, month: number, day: number): number {
    return wallMs(year, month, day, this.hour, this.minute, this.second, this.ms) + this.ofDayMs;
  }

  private dated(date: ReadDate | null): number {
    if (date === null) return -1;
    this.year = date.year;
    this.month = date.month ?? this.month;
    this.day = date.day ?? this.day;
    return date.end;
  }

  private ofDay(count: Count | null): number {
    if (count === null) return -1;
    this.ofDayMs = count.ms;
    return count.end;
  }

  private counted(count: Count | null): number {
    if (count === null) return -1;
    // Two counts in one stamp add up: whole days and the seconds of the day, seconds and microseconds.
    this.count = Number.isNaN(this.count) ? count.ms : this.count + count.ms;
    return count.end;
  }

  private readFraction(bytes: Uint8Array, i: number, end: number, marks: ReadonlySet<number>): number {
    if (i < 0 || i + 1 >= end || !marks.has(bytes[i] ?? 0) || !isDigit(bytes[i + 1])) return i;
    return this.fractionDigits(bytes, i + 1, end);
  }

  private fractionDigits(bytes: Uint8Array, start: number, end: number): number {
    const fraction = readThousandths(bytes, start, end);
    this.ms = fraction.ms;
    return fraction.end > start ? fraction.end : -1;
  }

  private readMonthName(bytes: Uint8Array, i: number, end: number): number {
    const beyond = wordEnd(bytes, i, Math.min(end, i + 16));
    if (beyond < 0) return -1;
    this.month = monthNumber(Buffer.from(bytes.subarray(i, beyond)).toString('utf8'));
    if (this.month === 0) return -1;
    return bytes[beyond] === POINT && beyond < end ? beyond + 1 : beyond;
  }

  /** `AM`, `pm`, `a.m.`, 午前, 晚上, `de la noche` */
  private readPart(bytes: Uint8Array, i: number, end: number): number {
    const found = dayPart(Buffer.from(bytes.subarray(i, Math.min(end, i + LONGEST_PART))).toString('utf8'));
    if (found === null) return -1;
    this.part = found.part;
    return i + Buffer.byteLength(found.text);
  }

  private zoned(read: ReturnType<typeof readOffset>): number {
    this.offset = read?.minutes ?? NaN;
    return read?.end ?? -1;
  }
}
