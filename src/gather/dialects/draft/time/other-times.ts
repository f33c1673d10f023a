import { newStamp, StampPattern } from '../../time/stamp.js';
import { clockVariants } from './clock-variants.js';
import type { StampGuess } from './guess.js';
import { numbersRows } from './time-cells.js';

const DAY_MS = 86_400_000;
/** Maximum duration of a row's span. */
const NEAR_MS = 6 * 3_600_000;
const MIN_ROWS = 5;
/**
 * Minimum fraction of a column's cells that are times, and of these on the same side of the row's own; minimum fraction
 * of forward steps.
 */
const ARE_TIMES = 0.95;
const ONE_SIDED = 0.95;
/** Ends of several parallel devices go back repeatedly if rows are ordered by begins. */
const FORWARD = { number: 0.7, other: 0.5 } as const;
/** Minimum fraction of cells that differ from the row's own time. */
const DIFFER = 0.1;
/** Minimum number of rows with a count next to their own. */
const COUNTED = 0.8;
/** With fewer rows a count must be this close to their own, ms, on a range this many times as long. */
const TRACKS_MS = 20 * 60_000;
const MIN_TRACKING = 8;
const RANGE = 6;
/** Minimum range of counts, as a fraction of that of the rows' own: guiding errors stay at zero milliseconds. */
const SPANNED = 0.5;
/** A cell whose time was not noted, or whose event did not happen. */
export const UNKNOWN = /^(?:[?¿.…–—-]+|no|non|nein|nee|não|nie|ne|nej|нет|否|無|无)$/iu;

/** A row with its own time. */
export interface TimedRow {
  readonly fields: ReadonlyMap<string, string>;
  readonly line: number;
  /** Its own time in ms, and the part of it added by the section or the previous day; NaN without a time. */
  readonly atMs: number;
  readonly addedMs: number;
  /** How far its clock is behind that of the first row, ms: its time is on the clock of that. */
  readonly behindMs: number;
}

/** The contents of columns in addition to the rows' own times. */
export interface OtherTimes {
  /** By line, the times in ms by field, on the same clock as the rows' own. */
  readonly byLine: ReadonlyMap<number, ReadonlyMap<string, number>>;
  /** The patterns that read them. */
  readonly patterns: readonly string[];
}

/**
 * Further times that rows state in the form of their own: a table with begin and end columns. Numbers are such times
 * only in a column without other content, always close to the row's own time and on the same side of it.
 *
 * @param timePaths the fields with the rows' own times
 * @param isFirst of these the first that a row has holds its own; the others may hold further times
 */
export function otherTimes(
  rows: readonly TimedRow[],
  { pattern: source }: StampGuess,
  timePaths: readonly string[],
  isFirst: boolean,
): OtherTimes {
  const own = (fields: ReadonlyMap<string, string>): readonly string[] =>
    isFirst ? timePaths.filter((path) => fields.has(path)).slice(0, 1) : timePaths;
  const byLine = new Map<number, Map<string, number>>();
  const patterns = new Set<string>();
  const all = rows.map(({ fields }) => fields);
  for (const pattern of patternsOf(source)) {
    const paths = new Set(rows.flatMap(({ fields }) => [...fields.keys()]));
    for (const path of paths) if (pattern.kind === 'elapsed' && numbersRows(all, path)) paths.delete(path);
    for (const path of paths) {
      const more = clockVariants(
        pattern.source,
        all.map((fields) => fields.get(path)?.trim() ?? ''),
      );
      const read = timesOf(rows, path, [pattern, ...more.map((one) => new StampPattern(one))], own);
      if (read === null || areLengths(read, path)) continue;
      // An increasing number may be anything: with few rows it must follow their own times.
      const isNumber = pattern.kind === 'elapsed' && !read.every(({ row }) => row.fields.get(path)?.includes(':'));
      const isFew = isNumber && read.length < COUNTED * rows.length;
      if (!(isFew ? goesAlong(read) : isOtherEnd(read, isNumber))) continue;
      for (const one of [pattern.source, ...more]) patterns.add(one);
      for (const { row, atMs } of read)
        byLine.set(row.line, (byLine.get(row.line) ?? new Map<string, number>()).set(path, atMs));
    }
  }
  return { byLine, patterns: [...patterns] };
}

/** The times in a column, NaN for cells without one; `null` if there are too many of those. */
function timesOf(
  rows: readonly TimedRow[],
  path: string,
  patterns: readonly StampPattern[],
  own: (fields: TimedRow['fields']) => readonly string[],
): readonly { readonly row: TimedRow; readonly atMs: number }[] | null {
  const cells = rows.flatMap((row) => {
    const text = row.fields.get(path)?.trim() ?? '';
    return text === '' || UNKNOWN.test(text) || Number.isNaN(row.atMs) || own(row.fields).includes(path)
      ? []
      : [{ row, text }];
  });
  let others = 0;
  const read: { readonly row: TimedRow; readonly atMs: number }[] = [];
  for (const { row, text } of cells) {
    const atMs = patterns.map((pattern) => timeIn(text, pattern, row)).find((ms) => !Number.isNaN(ms)) ?? NaN;
    if (Number.isNaN(atMs) && ++others > (1 - ARE_TIMES) * cells.length) return null;
    read.push({ row, atMs });
  }
  return read;
}

/** The rows' own pattern, and its time of day: a date may be in an adjacent cell. */
function patternsOf(source: string): StampPattern[] {
  const hour = source.search(/(?:\{am-pm\}\s?)?\{(?:night-)?hour/);
  const ofDay = source.slice(hour).replace(/\}[^{}]*$/, '}');
  const whole = new StampPattern(source);
  return hour > 0 && !/\{(?:day|month|year)/.test(ofDay) ? [whole, new StampPattern(ofDay)] : [whole];
}

function timeIn(text: string, pattern: StampPattern, { atMs, addedMs, behindMs }: TimedRow): number {
  const bytes = Buffer.from(text);
  const stamp = newStamp();
  if (!pattern.readAt(bytes, 0, bytes.length, stamp) || stamp.end !== bytes.length) return NaN;
  const ms = stamp.ms + behindMs;
  if (pattern.kind !== 'time') return ms + addedMs;
  return ms + Math.round((atMs - ms) / DAY_MS) * DAY_MS;
}

/** Hours and minutes of a length: hardly anything takes longer. */
const SHORT = /^0?[0-3]:\d{2}(?::\d{2})?(?:[.,]\d+)?$/;
/** Fewer different ones than this fraction of the cells are no instants: a night does not come back to one. */
const DIFFERENT = 0.75;

/** Whether cells such as `0:08:00` are lengths, which repeat, and not times of day in the small hours. */
function areLengths(read: readonly { readonly row: TimedRow }[], path: string): boolean {
  const cells = read.map(({ row }) => row.fields.get(path)?.trim() ?? '');
  if (cells.length < MIN_ROWS || !cells.every((text) => SHORT.test(text))) return false;
  return new Set(cells).size < DIFFERENT * cells.length;
}

/** Whether counts follow the rows' own times all night, slightly behind them. */
function goesAlong(read: readonly { readonly row: TimedRow; readonly atMs: number }[]): boolean {
  const away = read.map(({ row, atMs }) => atMs - row.atMs);
  const first = read[0]?.atMs ?? NaN;
  const last = read.at(-1)?.atMs ?? NaN;
  return (
    read.length >= MIN_TRACKING &&
    away.every((ms) => ms > 0 && ms <= TRACKS_MS) &&
    last - first >= RANGE * Math.max(...away)
  );
}

function isOtherEnd(read: readonly { readonly row: TimedRow; readonly atMs: number }[], isNumber: boolean): boolean {
  const away = read.map(({ row, atMs }) => atMs - row.atMs);
  const share = (test: (ms: number) => boolean): number => away.filter(test).length / Math.max(1, away.length);
  if (read.length < MIN_ROWS || share((ms) => Math.abs(ms) < NEAR_MS) < ARE_TIMES) return false;
  if (
    Math.max(
      share((ms) => ms >= 0),
      share((ms) => ms <= 0),
    ) < ONE_SIDED ||
    share((ms) => ms !== 0) < DIFFER
  )
    return false;
  if (isNumber && rangeOf(read.map(({ atMs }) => atMs)) < SPANNED * rangeOf(read.map(({ row }) => row.atMs)))
    return false;
  const forward = read.filter(({ atMs }, i) => i > 0 && atMs >= (read[i - 1]?.atMs ?? NaN)).length;
  return forward >= FORWARD[isNumber ? 'number' : 'other'] * (read.length - 1);
}

/** Interval between the first and the last of these times, ms. */
function rangeOf(times: readonly number[]): number {
  const known = times.filter((ms) => !Number.isNaN(ms));
  const [first = 0] = known;
  return known.reduce((a, b) => Math.max(a, b), first) - known.reduce((a, b) => Math.min(a, b), first);
}
