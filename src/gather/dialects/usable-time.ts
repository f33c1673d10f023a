import { EARLIEST_YEAR, isPlausibleInstant, LATEST_YEAR } from '../../model/index.js';
import type { WarningTally } from '../lines/warning-tally.js';

/** Whether an instant is possible for a line; a warning says why if not. */
export function isUsableTime(atMs: number, line: number, tally: WarningTally): boolean {
  if (isPlausibleInstant(atMs)) return true;
  if (!Number.isNaN(atMs)) {
    tally.add(
      'absurd-time',
      line,
      () =>
        `Line ${line} was left out: its time lies outside the years ${EARLIEST_YEAR} to ` +
        `${LATEST_YEAR}. Check "time.pattern".`,
    );
    return false;
  }
  tally.add(
    'unreadable-time',
    line,
    () =>
      `Line ${line} matches the dialect, but no time can be read from it; it was left out. Check ` +
      '"time.pattern", or set "time.carry" where lines share the time of one before.',
  );
  return false;
}
