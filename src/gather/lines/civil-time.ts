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

// The day read last: nearly every line of a log is of the same day as the line before.
let lastDate = 0;
let lastDays = 0;

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
  if (date !== lastDate) {
    if (!(month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month))) return NaN;
    lastDays = daysFromCivil(year, month, day);
    lastDate = date;
  }
  if (hour > 24 || minute > 59 || second > 60 || (hour === 24 && (minute > 0 || second > 0 || ms > 0))) return NaN;
  return lastDays * DAY_MS + hour * 3_600_000 + minute * 60_000 + second * 1000 + ms;
}
