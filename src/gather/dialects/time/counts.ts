import { COMMA, isDigit, numberEnd, POINT } from './bytes.js';

const DAY_MS = 86_400_000;
const PLUS = 0x2b;
const MINUS = 0x2d;
/** Hundreds of nanoseconds since the year 1 have 18 digits, nanoseconds since 1970 19. */
const MOST_DIGITS = 20;
const MOST_HEX_DIGITS = 16;

/** The value of a count of days, seconds or smaller units, and the index of the first byte after it. */
export interface Count {
  readonly ms: number;
  readonly end: number;
}

/**
 * Point and colon between digits make the preceding digits part of a date or a longer clock; so do hyphen and slash if
 * they occur twice.
 */
const CONTINUES: ReadonlySet<number> = new Set([POINT, 0x3a]);
const CONTINUES_TWICE: ReadonlySet<number> = new Set([0x2d, 0x2f]);

/** `12.10.2026`, `12:30:05:1` and `12/10/2026` are not counts. */
function goesOn(bytes: Uint8Array, i: number, end: number): boolean {
  const mark = bytes[i] ?? 0;
  if (i + 1 >= end || !isDigit(bytes[i + 1])) return false;
  if (CONTINUES.has(mark)) return true;
  if (!CONTINUES_TWICE.has(mark)) return false;
  let k = i + 1;
  while (k < end && k - i < 4 && isDigit(bytes[k])) k++;
  return k < end && bytes[k] === mark;
}

/** Days with a fraction, with the whole days since 1970 split off first to keep the precision of the fraction. */
export function readDays(bytes: Uint8Array, start: number, end: number, daysOfEpoch: number): Count | null {
  let i = start;
  let days = 0;
  while (i < end && i - start < 8 && isDigit(bytes[i])) days = days * 10 + ((bytes[i++] ?? 0) - 0x30);
  if (i === start) return null;
  let fraction = 0;
  if (i + 1 < end && (bytes[i] === POINT || bytes[i] === COMMA) && isDigit(bytes[i + 1])) {
    let scale = 0.1;
    for (i++; i < end && isDigit(bytes[i]); i++, scale /= 10) fraction += ((bytes[i] ?? 0) - 0x30) * scale;
  }
  return { ms: Math.round((days - daysOfEpoch + fraction) * DAY_MS), end: i };
}

/** Nanoseconds since 1970; nineteen digits exceed the precision of a number. */
export function readNanoseconds(bytes: Uint8Array, start: number, end: number): Count | null {
  let i = start;
  while (i < end && i - start < 20 && isDigit(bytes[i])) i++;
  if (i - start < 7 || i - start > 19) return null;
  return { ms: Number(Buffer.from(bytes.subarray(start, i - 6)).toString('latin1')), end: i };
}

/** After minutes two digits are seconds without a unit: `0h02m15.0`. */
const BARE_SECONDS = String.raw`(?<=\dm[0-5]\d(?:[.,]\d{1,9})?)(?![\p{L}\d:])`;
const SPELT = new RegExp(
  [
    String.raw`^[+-]?(?:P(?=\d|T\d))?(?:(\d{1,3})\s?d(?:ays?)?[\s,]{0,2}(?=\d|T\d))?(?:T(?=\d))?`,
    String.raw`(?:(\d{1,3})\s?(?:hours?|hrs?|std|h|小[时時]|時間|[时時])\.?[\s,:]{0,2})?`,
    String.raw`(?:(\d{1,4})\s?(?:min(?:s|utes?)?|mn|m|'|分[钟鐘間]?)\.?[\s,:]{0,2})?`,
    String.raw`(?:(\d{1,6})(?:[.,](\d{1,9}))?(?:\s?(?:(?:sec(?:s|onds?)?|sek|s|")(?!\p{L})|秒)|${BARE_SECONDS}))?`,
  ].join(''),
  'iu',
);

/** Elapsed time with its units: `1h 02m 03s`, `0h02m15.0`, `62 min 3 s`, `3723 s`, `PT1H2M3S` (ISO 8601). */
export function readSpelt(bytes: Uint8Array, start: number, end: number): Count | null {
  const text = Buffer.from(bytes.subarray(start, Math.min(end, start + 48))).toString('utf8');
  const match = SPELT.exec(text);
  const [whole = '', days, hours, minutes, seconds, fraction = '0'] = match ?? [];
  if (days === undefined && hours === undefined && minutes === undefined && seconds === undefined) return null;
  const all = ((Number(days ?? 0) * 24 + Number(hours ?? 0)) * 60 + Number(minutes ?? 0)) * 60 + Number(seconds ?? 0);
  const ms = Math.floor((all + (seconds === undefined ? 0 : Number(`0.${fraction}`))) * 1000 + 1e-3);
  const beyond = start + Buffer.byteLength(whole.trimEnd());
  return { ms: whole.startsWith('-') ? -ms : ms, end: beyond };
}

/** A count with an optional fraction; as elapsed time also `h:mm:ss` and `m:ss`. */
export function readCount(
  bytes: Uint8Array,
  start: number,
  end: number,
  msPerUnit: number,
  clock: boolean,
): Count | null {
  let i = start;
  const negative = bytes[i] === MINUS;
  if (negative || (bytes[i] === PLUS && i + 1 < end)) i++;
  let value = 0;
  let fields = 0;
  for (;;) {
    const from = i;
    let field = 0;
    while (i < end && i - from < MOST_DIGITS && isDigit(bytes[i])) field = field * 10 + ((bytes[i++] ?? 0) - 0x30);
    if (i === from) return null;
    value = value * 60 + field;
    if (!clock || ++fields === 3 || i >= end || bytes[i] !== 0x3a || !isDigit(bytes[i + 1])) break;
    i++;
  }
  let fraction = 0;
  if (i + 1 < end && (bytes[i] === POINT || bytes[i] === COMMA) && isDigit(bytes[i + 1])) {
    let scale = 0.1;
    for (i++; i < end && isDigit(bytes[i]); i++, scale /= 10) fraction += ((bytes[i] ?? 0) - 0x30) * scale;
  }
  if (clock && goesOn(bytes, i, end)) return null;
  // Whole milliseconds; the half-millisecond guard keeps 0.250 from becoming 249.
  const ms = Math.floor((value + fraction) * msPerUnit + 1e-3) * (negative ? -1 : 1);
  return Number.isSafeInteger(ms) ? { ms, end: i } : null;
}

/**
 * Time elapsed since midnight, in seconds or milliseconds. A night's count may continue past the next midnight, or be
 * negative before its own; a value above two days, or followed by the rest of a clock or date, does not match.
 */
export function readOfDay(bytes: Uint8Array, start: number, end: number, msPerUnit: number): Count | null {
  const count = readCount(bytes, start, end, msPerUnit, false);
  return count === null || Math.abs(count.ms) >= 2 * DAY_MS || goesOn(bytes, count.end, end) ? null : count;
}

/** Minutes of an hour with a fraction: `42.17`. */
export function readDecimalMinute(bytes: Uint8Array, start: number, end: number): Count | null {
  const count = isDigit(bytes[start]) ? readCount(bytes, start, end, 60_000, false) : null;
  const mark = bytes[start + 2];
  return count === null || count.ms >= 3_600_000 || (mark !== POINT && mark !== COMMA) ? null : count;
}

/** `.9056` after a date: the elapsed fraction of the day. */
export function readDayFraction(bytes: Uint8Array, i: number, end: number): Count | null {
  if (i >= end || (bytes[i] !== POINT && bytes[i] !== COMMA)) return null;
  const beyond = numberEnd(bytes, i + 1, end);
  if (beyond < 0) return null;
  const fraction = Number(`0.${Buffer.from(bytes.subarray(i + 1, beyond)).toString('latin1')}`);
  return { ms: Math.round(fraction * DAY_MS), end: beyond };
}

/** A number this small (3 March 1973 as seconds) is a code or a counter, not a time since 1970. */
const EARLIEST_MS = 1e11;

/** A count since 1970, unless it is too small to be one. */
export function sinceEpoch(count: Count | null): Count | null {
  return count === null || count.ms < EARLIEST_MS ? null : count;
}

/** The digits of a fraction of a second as whole milliseconds; further digits are truncated. */
export function readThousandths(bytes: Uint8Array, start: number, end: number): Count {
  let i = start;
  let scale = 100;
  let ms = 0;
  for (; i < end && isDigit(bytes[i]); i++) {
    ms += ((bytes[i] ?? 0) - 0x30) * scale;
    scale = scale > 1 ? scale / 10 : 0;
  }
  return { ms, end: i };
}

/** A hexadecimal count, with or without `0x` in front of it; no sign and no fraction. */
export function readHex(bytes: Uint8Array, start: number, end: number, msPerUnit: number): Count | null {
  const hasMark = bytes[start] === 0x30 && ((bytes[start + 1] ?? 0) | 0x20) === 0x78 && start + 2 < end;
  const from = hasMark ? start + 2 : start;
  let i = from;
  let value = 0;
  for (; i < end && i - from < MOST_HEX_DIGITS; i++) {
    const digit = hexDigit(bytes[i] ?? 0);
    if (digit < 0) break;
    value = value * 16 + digit;
  }
  const ms = Math.floor(value * msPerUnit + 1e-3);
  return i === from || !Number.isSafeInteger(ms) ? null : { ms, end: i };
}

function hexDigit(byte: number): number {
  if (isDigit(byte)) return byte - 0x30;
  const lower = byte | 0x20;
  return lower >= 0x61 && lower <= 0x66 ? lower - 0x61 + 10 : -1;
}
