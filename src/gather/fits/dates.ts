/**
 * Dates, times of day and time scales as headers write them (FITS Standard 4.0, sections 4.4.2 and 9).
 */
import { itemAt } from '../../model/index.js';

/** A parsed date; in the scale of TIMESYS, not yet in UTC. */
export interface DateTime {
  /** Milliseconds since 1970-01-01T00:00:00 of the header's scale; midnight when there is no time of day. */
  readonly ms: number;
  readonly hasTime: boolean;
  /** How the text leaves the standard, when it does in a way worth telling. */
  readonly oddity?: 'two-digit-year' | 'time-zone';
}

const DAY_MS = 86_400_000;
const CLOCK = '(\\d{1,2}):(\\d{1,2})(?::(\\d{1,2})(?:[.,](\\d*))?)? *([Zz]|[+-]\\d{2}:?\\d{2})?';
const ISO = new RegExp(`^(\\d{4})-(\\d{1,2})-(\\d{1,2})(?:(?:[Tt]| +)${CLOCK})?$`);
const OLD = /^(\d{1,2})\/(\d{1,2})\/(\d{2}|\d{4})$/;
const TIME = new RegExp(`^${CLOCK}$`);
/** Two-digit years mean 19YY by the standard; but no sensor's frame is older than this, so smaller ones are 20YY. */
const FIRST_OLD_YEAR = 70;

/**
 * Reads `YYYY-MM-DD`, `YYYY-MM-DDThh:mm:ss[.s…]` or the old `DD/MM/YY`.
 * A trailing `Z` is passed over, a time zone is applied, and second 60 is the first of the next minute.
 *
 * @returns `undefined` when it is no date, or one that the calendar does not have
 */
export function parseDateTime(text: string): DateTime | undefined {
  const plainMs = plainDateTimeMs(text);
  if (!Number.isNaN(plainMs)) return { ms: plainMs, hasTime: true };
  const iso = ISO.exec(text);
  if (iso === null) return parseOldDate(text);
  const [, year, month, day, hours, minutes, seconds, fraction, zone] = iso;
  const midnight = midnightMs(Number(year), Number(month), Number(day));
  if (midnight === undefined) return undefined;
  if (hours === undefined) return { ms: midnight, hasTime: false };
  const clock = clockMs(hours, minutes, seconds, fraction);
  if (clock === undefined) return undefined;
  return hasZone(zone)
    ? { ms: midnight + clock - zoneMs(zone), hasTime: true, oddity: 'time-zone' }
    : { ms: midnight + clock, hasTime: true };
}

/**
 * `YYYY-MM-DDThh:mm:ss` with no more than milliseconds, as most headers have it: digit by digit, in a third of the time
 * that its pattern takes. NaN for anything else.
 */
function plainDateTimeMs(text: string): number {
  const { length } = text;
  if (length < 19 || length > 23 || length === 20) return NaN;
  if (text[4] !== '-' || text[7] !== '-' || text[10] !== 'T' || text[13] !== ':' || text[16] !== ':') return NaN;
  if (length > 19 && text[19] !== '.') return NaN;
  let fraction = 0;
  for (let i = 20; i < 23; i++) fraction = fraction * 10 + (i < length ? digitAt(text, i) : 0);
  const [minutes, seconds] = [twoAt(text, 14), twoAt(text, 17)];
  const clock = ((twoAt(text, 11) * 60 + minutes) * 60 + seconds) * 1000;
  // A non-digit makes a NaN, which is within no bound.
  if (!(minutes <= 59 && seconds <= 60 && clock <= DAY_MS)) return NaN;
  const midnight = midnightMs(twoAt(text, 0) * 100 + twoAt(text, 2), twoAt(text, 5), twoAt(text, 8));
  return midnight === undefined ? NaN : midnight + clock + fraction;
}

function twoAt(text: string, i: number): number {
  return digitAt(text, i) * 10 + digitAt(text, i + 1);
}

function digitAt(text: string, i: number): number {
  const digit = text.charCodeAt(i) - 0x30;
  return digit >= 0 && digit <= 9 ? digit : NaN;
}

/** Reads `hh:mm:ss[.s…]`: ms since midnight, UTC. A time zone may move it out of the day. */
export function parseTimeOfDay(text: string): number | undefined {
  const match = TIME.exec(text);
  if (match === null) return undefined;
  const [, hours, minutes, seconds, fraction, zone] = match;
  const clock = clockMs(hours, minutes, seconds, fraction);
  return clock === undefined ? undefined : clock - (hasZone(zone) ? zoneMs(zone) : 0);
}

function parseOldDate(text: string): DateTime | undefined {
  const old = OLD.exec(text);
  if (old === null) return undefined;
  const [, day, month, yearText = ''] = old;
  const number = Number(yearText);
  const recent = yearText.length === 2 && number < FIRST_OLD_YEAR;
  const year = yearText.length === 4 ? number : number + (recent ? 2000 : 1900);
  const midnight = midnightMs(year, Number(month), Number(day));
  if (midnight === undefined) return undefined;
  return recent ? { ms: midnight, hasTime: false, oddity: 'two-digit-year' } : { ms: midnight, hasTime: false };
}

function midnightMs(year: number, month: number, day: number): number | undefined {
  if (month < 1 || month > 12 || day < 1 || day > 31 || year < 100) return undefined;
  const ms = Date.UTC(year, month - 1, day);
  return day <= 28 || new Date(ms).getUTCDate() === day ? ms : undefined;
}

/** Milliseconds since midnight; up to the end of the day, 24:00:00 or 23:59:60 and a fraction. */
function clockMs(hours = '', minutes = '', seconds = '0', fraction = '0'): number | undefined {
  if (Number(minutes) > 59 || Number(seconds) > 60) return undefined;
  const ms = ((Number(hours) * 60 + Number(minutes)) * 60 + Number(seconds)) * 1000;
  return ms > DAY_MS ? undefined : ms + Math.round(Number(`0.${fraction}`) * 1000);
}

/** `Z` is a zone by ISO 8601, but one that changes nothing. */
function hasZone(zone: string | undefined): zone is string {
  return zone !== undefined && zone.length > 1;
}

/** `+02:00` is ahead of UTC by 7,200,000 ms. */
function zoneMs(zone: string): number {
  const digits = zone.replace(/\D/g, '');
  const minutes = Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2));
  return (zone.startsWith('-') ? -minutes : minutes) * 60_000;
}

/** Modified Julian Date 40587 is 1970-01-01. */
export function mjdToMs(mjd: number): number {
  return Math.round((mjd - 40_587) * DAY_MS);
}

export function jdToMs(jd: number): number {
  return Math.round((jd - 2_440_587.5) * DAY_MS);
}

/** TAI − UTC in seconds from each date on (IERS Bulletin C; whole seconds since 1972). */
const LEAP_SECONDS: readonly (readonly [string, number])[] = [
  ['1972-01-01', 10],
  ['1972-07-01', 11],
  ['1973-01-01', 12],
  ['1974-01-01', 13],
  ['1975-01-01', 14],
  ['1976-01-01', 15],
  ['1977-01-01', 16],
  ['1978-01-01', 17],
  ['1979-01-01', 18],
  ['1980-01-01', 19],
  ['1981-07-01', 20],
  ['1982-07-01', 21],
  ['1983-07-01', 22],
  ['1985-07-01', 23],
  ['1988-01-01', 24],
  ['1990-01-01', 25],
  ['1991-01-01', 26],
  ['1992-07-01', 27],
  ['1993-07-01', 28],
  ['1994-07-01', 29],
  ['1996-01-01', 30],
  ['1997-07-01', 31],
  ['1999-01-01', 32],
  ['2006-01-01', 33],
  ['2009-01-01', 34],
  ['2012-07-01', 35],
  ['2015-07-01', 36],
  ['2017-01-01', 37],
];
const STEPS = LEAP_SECONDS.map(([date, seconds]) => ({ fromMs: Date.parse(date), offsetMs: seconds * 1000 })).reverse();

/** Scales that run with UTC to better than a second. */
const CIVIL: ReadonlySet<string> = new Set(['UTC', 'UT', 'UT1', 'GMT']);
/** TAI minus the scale, ms. TDB differs from TT by less than 2 ms. */
const ATOMIC: ReadonlyMap<string, number> = new Map([
  ['TAI', 0],
  ['IAT', 0],
  ['GPS', 19_000],
  ['TT', -32_184],
  ['TDT', -32_184],
  ['ET', -32_184],
  ['TDB', -32_184],
]);

/** The name of a scale without a realisation: `TT(TAI)` and `tt` are TT. */
export function scaleName(timesys: string): string {
  return isKnownScale(timesys)
    ? timesys
    : timesys
        .toUpperCase()
        .replace(/\(.*\)$/, '')
        .trim();
}

/** Whether a scale can be brought to UTC. */
export function isKnownScale(scale: string): boolean {
  return CIVIL.has(scale) || ATOMIC.has(scale);
}

/**
 * Converts an instant to UTC. An unknown scale is assumed to be UTC.
 *
 * @param ms milliseconds since 1970-01-01T00:00:00 as counted in that scale's own days
 * @param scale a name from `scaleName`
 * @returns UTC milliseconds since the epoch; of TT and its kin rounded to whole ones
 */
export function toUtcMs(ms: number, scale: string): number {
  const toTai = ATOMIC.get(scale);
  if (toTai === undefined) return ms;
  const tai = ms + toTai;
  const { offsetMs } = STEPS.find((step) => tai - step.offsetMs >= step.fromMs) ?? itemAt(STEPS, STEPS.length - 1);
  return Math.round(tai - offsetMs);
}
