import { wallMs } from '../../lines/civil-time.js';
import { monthNumber } from './month-names.js';

const DAY_MS = 86_400_000;
/** Julian date and modified Julian date of 1970-01-01 00:00 UTC (IAU definitions: MJD = JD − 2400000.5). */
const JULIAN_OF_EPOCH = 2_440_587.5;
const MJD_OF_EPOCH = 40_587;

/** The placeholders of a time pattern. */
export const TIME_TOKENS = [
  'year',
  'year2',
  'month',
  'month-name',
  'day',
  'weekday',
  'hour',
  'hour12',
  'am-pm',
  'minute',
  'second',
  'fraction',
  'offset',
  'epoch',
  'epoch-ms',
  'epoch-us',
  'julian',
  'mjd',
  'elapsed',
  'elapsed-ms',
  'elapsed-clock',
  'skip',
  'number',
] as const;
/** A placeholder of a time pattern. */
export type TimeToken = (typeof TIME_TOKENS)[number];

/** What a time pattern says, as it stands; what is made of it depends on zone, date and section. */
export type StampKind = 'epoch' | 'date-time' | 'month-day-time' | 'time' | 'date' | 'month-day' | 'elapsed';

/** One reading of a time pattern. Reused from line to line. */
export interface Stamp {
  /**
   * `epoch`: UTC ms. `elapsed`: ms since the base. Else: the wall clock's reading as if it were UTC, ms; without a
   * date, ms since midnight.
   */
  ms: number;
  /** Minutes east of Greenwich where the pattern has an offset, else NaN. */
  offsetMinutes: number;
  month: number;
  day: number;
  /** Index of the first byte after the stamp. */
  end: number;
}

/** A stamp to be filled by a reading. */
export function newStamp(): Stamp {
  return { ms: NaN, offsetMinutes: NaN, month: 0, day: 0, end: 0 };
}

/** ASCII comma and point, the marks that a fraction may begin with. */
export const COMMA = 0x2c;
export const POINT = 0x2e;

/** Whether the byte is an ASCII digit. */
export function isDigit(byte: number | undefined): boolean {
  return byte !== undefined && byte >= 0x30 && byte <= 0x39;
}

/** Whether the byte is a space or a tab. */
export function isBlank(byte: number | undefined): boolean {
  return byte === 0x20 || byte === 0x09;
}

/** How many bytes the blank at `i` has in UTF-8: a space or tab, one of no break, a thin or an ideographic one; 0 where none is. */
export function blankLength(bytes: Uint8Array, i: number): number {
  if (isBlank(bytes[i])) return 1;
  if (bytes[i] === 0xc2 && bytes[i + 1] === 0xa0) return 2;
  if (bytes[i] === 0xe3 && bytes[i + 1] === 0x80 && bytes[i + 2] === 0x80) return 3;
  const last = bytes[i + 2] ?? 0;
  const isThin = (last >= 0x80 && last <= 0x8a) || last === 0xaf;
  return bytes[i] === 0xe2 && bytes[i + 1] === 0x80 && isThin ? 3 : 0;
}

/** The placeholders' values while a stamp is being read. */
export class StampParts {
  private year = 0;
  private month = 0;
  private day = 0;
  private hour = 0;
  private minute = 0;
  private second = 0;
  private ms = 0;
  private afternoon = 0;
  private offset = NaN;
  private count = 0;

  reset(): void {
    this.year =
      this.month =
      this.day =
      this.hour =
      this.minute =
      this.second =
      this.ms =
      this.afternoon =
      this.count =
        0;
    this.offset = NaN;
  }

  /** Reads one placeholder at `i`. @returns the index after it, or −1 */
  read(token: TimeToken, bytes: Uint8Array, i: number, end: number, marks: ReadonlySet<number>): number {
    switch (token) {
      case 'year':
        this.year = digits(bytes, i, Math.min(end, i + 4), 4);
        return after(i + 4, this.year);
      case 'year2':
        this.year = 2000 + digits(bytes, i, Math.min(end, i + 2), 2);
        return after(i + 2, this.year);
      case 'month':
        this.month = upTo2(bytes, i, end);
        return next2(bytes, i, this.month);
      case 'day':
        this.day = upTo2(bytes, i, end);
        return next2(bytes, i, this.day);
      case 'hour':
      case 'hour12':
        this.hour = upTo2(bytes, i, end);
        return next2(bytes, i, this.hour);
      case 'minute':
        this.minute = upTo2(bytes, i, end);
        return next2(bytes, i, this.minute);
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
        return this.readHalf(bytes, i, end);
      case 'offset':
        return this.readOffset(bytes, i, end);
      case 'epoch':
      case 'elapsed':
        return this.readCount(bytes, i, end, 1000, token === 'elapsed');
      case 'elapsed-clock':
        return hasColon(bytes, i, end) ? this.readCount(bytes, i, end, 1000, true) : -1;
      case 'epoch-ms':
      case 'elapsed-ms':
        return this.readCount(bytes, i, end, 1, false);
      case 'epoch-us':
        return this.readCount(bytes, i, end, 0.001, false);
      case 'julian':
        return this.readDays(bytes, i, end, JULIAN_OF_EPOCH);
      case 'mjd':
        return this.readDays(bytes, i, end, MJD_OF_EPOCH);
      case 'skip':
        return skipEnd(bytes, i, end);
      case 'number':
        return numberEnd(bytes, i, end);
    }
  }

  into(stamp: Stamp, kind: StampKind, half: boolean, end: number): boolean {
    let hour = this.hour;
    if (half) {
      if (hour < 1 || hour > 12) return false;
      hour = (hour % 12) + this.afternoon;
    }
    const ms =
      kind === 'epoch' || kind === 'elapsed'
        ? this.count
        : kind === 'time'
          ? wallMs(1970, 1, 1, hour, this.minute, this.second, this.ms)
          : // 2000 is a leap year: 29 February passes, and the true year is found later.
            wallMs(
              kind.startsWith('month-day') ? 2000 : this.year,
              this.month,
              this.day,
              hour,
              this.minute,
              this.second,
              this.ms,
            );
    if (Number.isNaN(ms)) return false;
    stamp.ms = ms;
    stamp.offsetMinutes = this.offset;
    stamp.month = this.month;
    stamp.day = this.day;
    stamp.end = end;
    return true;
  }

  private readFraction(bytes: Uint8Array, i: number, end: number, marks: ReadonlySet<number>): number {
    if (i < 0 || i + 1 >= end || !marks.has(bytes[i] ?? 0) || !isDigit(bytes[i + 1])) return i;
    return this.fractionDigits(bytes, i + 1, end);
  }

  private fractionDigits(bytes: Uint8Array, start: number, end: number): number {
    let i = start;
    let scale = 100;
    this.ms = 0;
    for (; i < end && isDigit(bytes[i]); i++) {
      this.ms += ((bytes[i] ?? 0) - 0x30) * scale;
      scale = scale > 1 ? scale / 10 : 0;
    }
    return i > start ? i : -1;
  }

  private readMonthName(bytes: Uint8Array, i: number, end: number): number {
    const beyond = wordEnd(bytes, i, Math.min(end, i + 16));
    if (beyond < 0) return -1;
    this.month = monthNumber(Buffer.from(bytes.subarray(i, beyond)).toString('utf8'));
    if (this.month === 0) return -1;
    return bytes[beyond] === POINT && beyond < end ? beyond + 1 : beyond;
  }

  /** `AM`, `pm`, `a.m.`, 午前, 下午 */
  private readHalf(bytes: Uint8Array, i: number, end: number): number {
    const text = Buffer.from(bytes.subarray(i, Math.min(end, i + 8))).toString('utf8');
    const match = /^(?:([ap])\.?\s?m\b\.?|(午前|上午)|(午後|下午))/i.exec(text);
    if (match === null) return -1;
    this.afternoon = match[1]?.toLowerCase() === 'p' || match[3] !== undefined ? 12 : 0;
    return i + Buffer.byteLength(match[0]);
  }

  /** `Z`, `UTC`, `+2`, `+02:00`, `+0200`, `−02:00` */
  private readOffset(bytes: Uint8Array, i: number, end: number): number {
    const text = Buffer.from(bytes.subarray(i, Math.min(end, i + 8))).toString('utf8');
    const zero = /^(?:Z|z|UTC|GMT)(?![A-Za-z+-])/.exec(text);
    if (zero !== null) {
      this.offset = 0;
      return i + zero[0].length;
    }
    const match = /^([+\-\u2212])(\d{2}):?(\d{2})(?!\d)|^([+\-\u2212])(\d{1,2})(?![\d:])/.exec(text);
    if (match === null) return -1;
    const hours = Number(match[2] ?? match[5]);
    const minutes = Number(match[3] ?? 0);
    if (hours > 23 || minutes > 59) return -1;
    this.offset = (hours * 60 + minutes) * ((match[1] ?? match[4]) === '+' ? 1 : -1);
    return i + Buffer.byteLength(match[0]);
  }

  /** Days with a fraction, whole days since 1970 taken first so that the fraction keeps its digits. */
  private readDays(bytes: Uint8Array, start: number, end: number, daysOfEpoch: number): number {
    let i = start;
    let days = 0;
    while (i < end && i - start < 8 && isDigit(bytes[i])) days = days * 10 + ((bytes[i++] ?? 0) - 0x30);
    if (i === start) return -1;
    let fraction = 0;
    if (i + 1 < end && (bytes[i] === POINT || bytes[i] === COMMA) && isDigit(bytes[i + 1])) {
      let scale = 0.1;
      for (i++; i < end && isDigit(bytes[i]); i++, scale /= 10) fraction += ((bytes[i] ?? 0) - 0x30) * scale;
    }
    this.count = Math.round((days - daysOfEpoch + fraction) * DAY_MS);
    return i;
  }

  /** A count with an optional fraction; as elapsed time also `h:mm:ss` and `m:ss`. */
  private readCount(bytes: Uint8Array, start: number, end: number, msPerUnit: number, clock: boolean): number {
    let i = start;
    const negative = bytes[i] === 0x2d;
    if (negative) i++;
    let value = 0;
    let fields = 0;
    for (;;) {
      const from = i;
      let field = 0;
      while (i < end && i - from < 16 && isDigit(bytes[i])) field = field * 10 + ((bytes[i++] ?? 0) - 0x30);
      if (i === from) return -1;
      value = value * 60 + field;
      if (!clock || ++fields === 3 || i >= end || bytes[i] !== 0x3a || !isDigit(bytes[i + 1])) break;
      i++;
    }
    let fraction = 0;
    if (i + 1 < end && (bytes[i] === POINT || bytes[i] === COMMA) && isDigit(bytes[i + 1])) {
      let scale = 0.1;
      for (i++; i < end && isDigit(bytes[i]); i++, scale /= 10) fraction += ((bytes[i] ?? 0) - 0x30) * scale;
    }
    // `12.10.2026` and `12:30:05:1` count nothing.
    if (clock && i + 1 < end && CONTINUES.has(bytes[i] ?? 0) && isDigit(bytes[i + 1])) return -1;
    // Whole milliseconds; the half-millisecond guard keeps 0.250 from becoming 249.
    this.count = Math.floor((value + fraction) * msPerUnit + 1e-3) * (negative ? -1 : 1);
    return Number.isSafeInteger(this.count) ? i : -1;
  }
}

/** Whether a colon stands among the digits: `1:02:03` counts hours, `102` may be anything. */
function hasColon(bytes: Uint8Array, start: number, end: number): boolean {
  let i = start;
  while (i < end && isDigit(bytes[i])) i++;
  return i > start && i + 1 < end && bytes[i] === 0x3a && isDigit(bytes[i + 1]);
}

/** Point, colon, hyphen and slash: between digits they make a date or a longer clock of what came before. */
const CONTINUES: ReadonlySet<number> = new Set([0x2e, 0x3a, 0x2d, 0x2f]);

/** Exactly `count` digits as a number, or NaN. */
function digits(bytes: Uint8Array, start: number, end: number, count: number): number {
  if (end - start < count) return NaN;
  let value = 0;
  for (let i = start; i < end; i++) {
    if (!isDigit(bytes[i])) return NaN;
    value = value * 10 + ((bytes[i] ?? 0) - 0x30);
  }
  return value;
}

/** One or two digits as a number, or NaN. A blank may pad a single digit on the left. */
function upTo2(bytes: Uint8Array, i: number, end: number): number {
  const first = bytes[i];
  if (i >= end || !isDigit(first)) return NaN;
  const tens = (first ?? 0) - 0x30;
  const second = bytes[i + 1];
  return i + 1 < end && isDigit(second) ? tens * 10 + (second ?? 0) - 0x30 : tens;
}

function next2(bytes: Uint8Array, i: number, value: number): number {
  return Number.isNaN(value) ? -1 : i + (isDigit(bytes[i + 1]) ? 2 : 1);
}

function after(i: number, value: number): number {
  return Number.isNaN(value) ? -1 : i;
}

/** The end of a run of letters; bytes of non-ASCII characters count as letters. */
function wordEnd(bytes: Uint8Array, start: number, end: number): number {
  let i = start;
  for (; i < end; i++) {
    const lower = (bytes[i] ?? 0) | 0x20;
    if (!((lower >= 0x61 && lower <= 0x7a) || (bytes[i] ?? 0) >= 0x80)) break;
  }
  return i > start ? i : -1;
}

function numberEnd(bytes: Uint8Array, start: number, end: number): number {
  let i = start;
  while (i < end && isDigit(bytes[i])) i++;
  return i > start ? i : -1;
}

function skipEnd(bytes: Uint8Array, start: number, end: number): number {
  let i = start;
  while (i < end && !isBlank(bytes[i])) i++;
  return i > start ? i : -1;
}
