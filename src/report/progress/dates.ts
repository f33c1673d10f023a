/** Evenings, months and spans of dates for display; dates come as `YYYY-MM-DD`. */

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

function parts(date: string): { day: string; month: string; year: string } {
  const [year = '', month = '', day = ''] = date.split('-');
  return { day: String(Number(day)), month: MONTHS[Number(month) - 1] ?? '', year };
}

/** `8 Sep 2026` */
export function dateText(date: string): string {
  const { day, month, year } = parts(date);
  return `${day} ${month} ${year}`;
}

/** `8 Sep` */
export function dayText(date: string): string {
  const { day, month } = parts(date);
  return `${day} ${month}`;
}

/** `Sep 2026`, of a date or a month. */
export function monthText(date: string): string {
  const { month, year } = parts(date);
  return `${month} ${year}`;
}

/** `8 Sep to 22 Nov 2026`, `22 Dec 2026 to 4 Jan 2027`, or one date if they are the same. */
export function spanText(from: string, to: string): string {
  if (from === to) return dateText(from);
  return from.slice(0, 4) === to.slice(0, 4)
    ? `${dayText(from)} to ${dateText(to)}`
    : `${dateText(from)} to ${dateText(to)}`;
}

/** A date's position on an axis: its noon in UTC, ms. */
export function noonMs(date: string): number {
  return Date.parse(`${date}T12:00:00Z`);
}
