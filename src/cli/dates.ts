/** Dates as options take them. */
import { UsageError } from './exit-codes.js';

/**
 * Checks an option that names an evening.
 *
 * @param date as given; absent where the option was
 * @throws UsageError where it is no date of the calendar, `YYYY-MM-DD`
 */
export function checkDate(option: string, date: string | undefined): void {
  if (date !== undefined && !isDate(date))
    throw new UsageError(`${option} needs a date such as 2026-10-14, got "${date}"`);
}

function isDate(text: string): boolean {
  return (
    /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text)) && new Date(text).toISOString().startsWith(text)
  );
}
