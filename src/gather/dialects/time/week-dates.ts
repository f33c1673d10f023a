const DAY_MS = 86_400_000;

/**
 * Year, week and day of a week, in the extended or the basic format of ISO 8601, `2026-W42-3`, `2026W423`; logs in
 * other languages have the letters of their own.
 */
const WEEK_DATE = /^(\d{4})-?(?:KW|[WVSU])(\d{2})-?([1-7])/i;
const LONGEST = 11;

/** A year, or a whole date, and the index of the first byte after it. */
export interface ReadDate {
  readonly year: number;
  readonly month?: number;
  readonly day?: number;
  readonly end: number;
}

/** A week date at a position in a text, as a civil date; `null` if there is none. */
export function weekDate(bytes: Uint8Array, start: number, end: number): ReadDate | null {
  const text = Buffer.from(bytes.subarray(start, Math.min(end, start + LONGEST))).toString('latin1');
  const [whole, year, week, day] = WEEK_DATE.exec(text) ?? [];
  if (whole === undefined || Number(week) < 1 || Number(week) > weeksOf(Number(year))) return null;
  const date = new Date(firstMonday(Number(year)) + ((Number(week) - 1) * 7 + Number(day) - 1) * DAY_MS);
  return {
    year: date.getUTCFullYear(),
    month: date.getUTCMonth() + 1,
    day: date.getUTCDate(),
    end: start + whole.length,
  };
}

/** The Monday of the first week of a year: that of 4 January (ISO 8601). */
function firstMonday(year: number): number {
  const fourth = Date.UTC(year, 0, 4);
  return fourth - ((new Date(fourth).getUTCDay() + 6) % 7) * DAY_MS;
}

function weeksOf(year: number): number {
  return Math.round((firstMonday(year + 1) - firstMonday(year)) / (7 * DAY_MS));
}
