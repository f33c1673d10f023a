/** The placeholders of a time pattern. */
export const TIME_TOKENS = [
  'year',
  'year2',
  'era-year',
  'month',
  'month-name',
  'day',
  'day-of-year',
  'week-date',
  'day-fraction',
  'serial-day',
  'weekday',
  'hour',
  'hour12',
  'night-hour',
  'am-pm',
  'minute',
  'decimal-minute',
  'second',
  'fraction',
  'day-second',
  'day-ms',
  'offset',
  'epoch',
  'epoch-ms',
  'epoch-us',
  'epoch-ns',
  'epoch-hex',
  'julian',
  'mjd',
  'elapsed',
  'elapsed-ms',
  'elapsed-clock',
  'elapsed-spelt',
  'elapsed-hex',
  'skip',
  'number',
  'digit',
] as const;
/** A placeholder of a time pattern. */
export type TimeToken = (typeof TIME_TOKENS)[number];

/** The raw content of a time pattern; its interpretation depends on zone, date and section. */
export type StampKind = 'epoch' | 'date-time' | 'month-day-time' | 'time' | 'date' | 'month-day' | 'year' | 'elapsed';

/** Position of the stamp in a line: at the beginning, at the first match of the pattern, or at the end. */
export type StampPlace = 'start' | 'anywhere' | 'end';

/** One reading of a time pattern. Reused from line to line. */
export interface Stamp {
  /**
   * `epoch`: UTC ms. `elapsed`: ms since the base. Else: the wall clock's reading as if it were UTC, ms; without a
   * date, ms since midnight.
   */
  ms: number;
  /** Minutes east of Greenwich if the pattern has an offset, else NaN. */
  offsetMinutes: number;
  /** The first or second pass of an hour that occurs twice, if the stamp says which (`2A:30`, `2B:30`), else 0. */
  pass: 0 | 1 | 2;
  month: number;
  day: number;
  /** Index of its first byte, and of the first after it. */
  start: number;
  end: number;
}

/** A stamp to be filled by a reading. */
export function newStamp(): Stamp {
  return { ms: NaN, offsetMinutes: NaN, pass: 0, month: 0, day: 0, start: 0, end: 0 };
}
