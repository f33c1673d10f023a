const DAY_MS = 86_400_000;

/**
 * Days from 1970-01-01 to a date of the Gregorian calendar (the day-number formula of H. Hinnant, chrono-compatible
 * date algorithms, public domain, 2013).
 */
export function daysFromCivil(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

/** Days in a month, 1 to 12. */
export function daysInMonth(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

// The minute read last: most lines of a log are of the same minute as the line before. What comes once in a night, such
// as midnight, comes after V8 has optimised, which then begins anew.
let lastDate = 0;
let lastHour = 0;
let lastMinute = 0;
let lastMs = NaN;

/**
 * Milliseconds since the epoch of a wall clock's reading, as if the clock showed UTC; NaN when there is no such
 * reading. Second 60 is a leap second and counts as the first of the next minute.
 */
export function wallMs(
  year: number,
  month: number,
  day: number,
  hour: number,
  minute: number,
  second: number,
  ms: number,
): number {
  const date = year * 10_000 + month * 100 + day;
  if (date !== lastDate || hour !== lastHour || minute !== lastMinute) {
    lastMs = minuteMs(year, month, day, hour, minute);
    lastDate = date;
    lastHour = hour;
    lastMinute = minute;
  }
  if (second > 60 || (hour === 24 && (second > 0 || ms > 0))) return NaN;
  return lastMs + second * 1000 + ms;
}

function minuteMs(year: number, month: number, day: number, hour: number, minute: number): number {
  const isDay = month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month);
  if (!isDay || hour > 24 || minute > 59 || (hour === 24 && minute > 0)) return NaN;
  return daysFromCivil(year, month, day) * DAY_MS + hour * 3_600_000 + minute * 60_000;
}
