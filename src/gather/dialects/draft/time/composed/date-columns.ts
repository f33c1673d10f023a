type Row = ReadonlyMap<string, string>;

/** Maximum number of days in the table of a night. */
const MOST_DAYS = 3;
const NEARLY_ALL = 0.98;
const LONGEST = 40;
const OF_DAY = /(\d{1,2})\s?[:h.時时点點-]\s?\d{2}/u;
/** A step back by more than this is a midnight, h. */
const BACK = 12;

/**
 * Whether the cells of a column may be dates without a year, or in a form that only a time beside it completes: they
 * have few values, and change where the time of day begins anew; a night that ends before midnight shows nothing.
 *
 * @param clock the column with the time of day
 */
export function mayBeDates(rows: readonly Row[], path: string, clock: string): boolean {
  const texts = rows.map((row) => row.get(path) ?? '');
  const filled = texts.filter((text) => /\d/.test(text) && text.length <= LONGEST);
  const values = [...new Set(filled)];
  if (filled.length < NEARLY_ALL * rows.length || values.length < 2 || values.length > MOST_DAYS) return false;
  let changes = 0;
  let atMidnight = 0;
  rows.forEach((row, i) => {
    const before = rows[i - 1];
    if (before === undefined || row.get(path) === before.get(path)) return;
    changes++;
    if (hourIn(row, clock) < hourIn(before, clock) - BACK) atMidnight++;
  });
  return changes === values.length - 1 && atMidnight === changes;
}

function hourIn(row: Row, clock: string): number {
  return Number(OF_DAY.exec(row.get(clock) ?? '')?.[1] ?? NaN);
}
