import { farCountInCells } from './composed/far-counts.js';
import type { StampGuess, TimeCells } from './guess.js';
import { saysAsked, sideOfTitle } from '../lexicon/sides.js';
import { findDate } from './date-shapes.js';
import { mayBeDates } from './composed/date-columns.js';
import { withOffsetColumn } from './offset-column.js';
import { registersIn } from './composed/registers.js';
import { trustedClock } from './composed/trusted-clock.js';
import { withClockVariants } from './clock-variants.js';
import { firstFields, firstOf, isTime } from './first-fields.js';
import {
  clockOfJulianDay,
  clockOfSerialDay,
  dayPartsAlone,
  holdsDayParts,
  holdsModifiedJulianDays,
  holdsSerialDays,
} from './serial-days.js';
import { guessStamp } from './stamp-guess.js';
import type { StatedTimes } from './stated-times.js';

export type { TimeCells };

/** Number of rows whose cells are compared to find the time. */
const SAMPLED = 500;
/** Minimum fraction of forward steps: rows are written at ends, and may state dated begins. */
const FORWARD = { dated: 0.6, other: 0.9 } as const;
/** Minimum fraction of steps of one between rows, for a row counter. */
const ROW_BY_ROW = 0.95;
/** Minimum fraction of rows that one of several names gives a time. */
const FIRST_COVERED = 0.9;
/** Minimum fraction of rows with the time field, for the others to be a few context rows. */
const NEARLY_ALL = 0.98;
/** Half an hour, in days. */
const NEAR_ZERO = 0.02;
const CLOCK = /\{hour\}.*\{second\}/;
const TO_THE_MINUTE = /\{minute\}(?!.*\{second)/;
const HAS_DATE = /year|week-date|month|serial-day|epoch|julian|mjd/;

/**
 * The field, or date and time of day in two fields, that gives the best time; if many rows lack it, the first of
 * several that each has.
 */
export function timeInCells(rows: readonly ReadonlyMap<string, string>[], times: StatedTimes): TimeCells | null {
  const sample = rows.slice(0, SAMPLED);
  const far = farCountInCells(sample, times.heads ?? []);
  if (far !== null) return far;
  const counts = new Map<string, number>();
  for (const row of sample) for (const path of row.keys()) counts.set(path, (counts.get(path) ?? 0) + 1);
  const common = [...counts].filter(([, count]) => count >= 0.8 * sample.length).map(([path]) => path);
  const all = common.flatMap((path) => {
    const cells = sample.map((row) => row.get(path) ?? '');
    const stamp = withClockVariants(guessStamp(cells, times), cells);
    return stamp === null || stamp.coverage < 0.7 || stamp.forward < FORWARD.dated
      ? []
      : [{ paths: [path], isFirst: false, stamp }];
  });
  // Rows may be numbered: such a counter is perfectly monotonic, yet not a time if another column is one.
  const others = all.filter(({ paths: [path = ''] }) => !numbersRows(sample, path));
  const found = others.length > 0 ? others : all;
  const steady = found.filter(({ stamp }) => HAS_DATE.test(stamp.pattern) || stamp.forward >= FORWARD.other);
  // Clocks of rows written at ends go back like dates, if nothing else is a time.
  const guesses = steady.length > 0 ? steady : found.filter(({ stamp }) => CLOCK.test(stamp.pattern));
  // A cell with the date needs none from another, which may be the begin of the span.
  const clocks = found.filter(({ stamp }) => !HAS_DATE.test(stamp.pattern));
  const undated = clocks.flatMap(({ paths }) => paths);
  // Counters alone are not times; next to a date they may count within its day.
  const dayParts = common.filter((path) => holdsDayParts(sample, path));
  const ofDay = common.filter((path) => !undated.includes(path) && mayCountTheDay(sample, path));
  const dashed = common.filter((path) => isMostlyDashed(sample, path));
  const pairs = [...new Set([...undated, ...ofDay, ...dayParts, ...dashed])].flatMap((path) =>
    common.flatMap((date) => {
      const isJulian = holdsModifiedJulianDays(sample, date);
      const isSerial = isJulian || holdsSerialDays(sample, date);
      if (date === path || (!isSerial && !statesDates(sample, date) && !mayBeDates(sample, date, path))) return [];
      const paths = [date, path];
      const clock = isSerial
        ? clocks.find(({ paths: [own], stamp }) => own === path && CLOCK.test(stamp.pattern))
        : undefined;
      const stamp =
        clock !== undefined
          ? (isJulian ? clockOfJulianDay : clockOfSerialDay)(sample, paths, clock.stamp)
          : guessStamp(
              sample.map((row) => paths.map((one) => row.get(one) ?? '').join(' ')),
              times,
            );
      return stamp === null || stamp.coverage < 0.7 ? [] : [{ paths, isFirst: false, stamp }];
    }),
  );
  const parts = dayParts
    .filter((path) => !times.hasBase || !beginsAtZero(sample, path))
    .flatMap((path) => {
      const stamp = dayPartsAlone(sample, path);
      return stamp === null ? [] : [{ paths: [path], isFirst: false, stamp }];
    });
  const ranked = [...guesses, ...pairs, ...parts].sort((a, b) => rank(b.stamp) - rank(a.stamp));
  const [{ stamp: { pattern } = { pattern: '' } } = {}] = ranked;
  // A second clock with a column for each part may tell the seconds.
  const isDated = HAS_DATE.test(pattern) && !TO_THE_MINUTE.test(pattern);
  const best =
    (isDated ? null : registersIn(sample, common)) ??
    trustedClock(sample, ranked, times.heads ?? []) ??
    begunInstead(ranked) ??
    ranked[0];
  const isCount = others.length === 0 && best !== undefined && all.some((one) => one === best);
  const covered =
    best === undefined || isCount ? 0 : sample.filter((row) => best.paths.every((path) => row.has(path))).length;
  const first =
    covered >= NEARLY_ALL * sample.length || (!isCount && isOnTimedRows(sample, best))
      ? null
      : firstTimes(sample, times);
  return withOffsetColumn(first ?? best ?? null, sample);
}

/**
 * The column titled as the beginning, in place of one that states when things were asked for: rows without it are of
 * what never began.
 */
function begunInstead(ranked: readonly TimeCells[]): TimeCells | undefined {
  const [first] = ranked;
  if (first === undefined || !first.paths.some(saysAsked)) return undefined;
  return (
    ranked.find(({ paths }) => sideOfTitle(paths) === 'begin' && !paths.some(saysAsked)) ??
    ranked.find(({ paths }) => !paths.some(saysAsked))
  );
}

/** Whether nearly all rows with any time hold this one: the others are totals or remarks. */
function isOnTimedRows(rows: readonly ReadonlyMap<string, string>[], best: TimeCells | undefined): boolean {
  if (best === undefined) return false;
  const timed = rows.filter((row) => [...row.values()].some(isTime));
  return timed.filter((row) => best.paths.every((path) => row.has(path))).length >= NEARLY_ALL * timed.length;
}

/** Rows whose time has different names for what happened: the first of these that each has. */
function firstTimes(rows: readonly ReadonlyMap<string, string>[], stated: StatedTimes): TimeCells | null {
  const times = rows.map((row) => new Map([...row].filter(([, value]) => isTime(value))));
  const paths = firstFields(times);
  const texts = times.flatMap((own) => firstOf(own, paths) ?? []);
  if (paths.length === 0 || texts.length < FIRST_COVERED * rows.length) return null;
  const stamp = guessStamp(texts, stated);
  return stamp === null ||
    !/year|week-date|serial-day|epoch|julian|mjd|hour/.test(stamp.pattern) ||
    stamp.coverage < FIRST_COVERED ||
    stamp.forward < FORWARD.dated
    ? null
    : { paths, isFirst: paths.length > 1, stamp };
}

/** Whether the first cell of a column with digits is a date: a row of units, `dd/mm/yyyy`, may come first. */
function statesDates(rows: readonly ReadonlyMap<string, string>[], path: string): boolean {
  return findDate(rows.map((row) => row.get(path) ?? '').find((text) => /\d/.test(text)) ?? '') !== null;
}

/** Hours, minutes and seconds that only a date beside them tells from other numbers: `21-00-04`. */
const DASHED = /^[012]\d([-_])[0-5]\d\1[0-6]\d(?:[.,]\d+)?$/;

function isMostlyDashed(rows: readonly ReadonlyMap<string, string>[], path: string): boolean {
  return rows.filter((row) => DASHED.test(row.get(path) ?? '')).length >= NEARLY_ALL * rows.length;
}

/** Whether parts of days begin near zero: below a line that states the base, they are days since then. */
function beginsAtZero(rows: readonly ReadonlyMap<string, string>[], path: string): boolean {
  const first = rows.find((row) => row.has(path));
  return Number(first?.get(path)?.replace(',', '.')) < NEAR_ZERO;
}

/** Whether a column may hold the seconds or milliseconds of a day. */
function mayCountTheDay(rows: readonly ReadonlyMap<string, string>[], path: string): boolean {
  const isCount = (row: ReadonlyMap<string, string>): boolean =>
    /^[+-]?\d{1,8}(?:[.,]\d{1,6})?$/.test(row.get(path) ?? '');
  const isLong = (row: ReadonlyMap<string, string>): boolean => /^[+-]?\d{4}/.test(row.get(path) ?? '');
  return rows.filter(isCount).length >= NEARLY_ALL * rows.length && rows.filter(isLong).length >= 0.2 * rows.length;
}

/** Whether a column counts the rows. */
export function numbersRows(rows: readonly ReadonlyMap<string, string>[], path: string): boolean {
  const counts = rows.flatMap((row) => row.get(path) ?? []).map((text) => (/^\d+$/.test(text) ? Number(text) : NaN));
  const steps = counts.filter((count, i) => i > 0 && count === (counts[i - 1] ?? NaN) + 1);
  return counts.length > 2 && steps.length >= ROW_BY_ROW * (counts.length - 1);
}

function rank({ pattern, coverage, forward, at }: StampGuess): number {
  const worth = HAS_DATE.test(pattern) ? 3 : pattern.includes('elapsed') ? 1 : 2;
  // Numbers of the day need more than a clock: rows may be numbered.
  return worth + coverage * forward - (at === 'anywhere' ? 0.5 : 0) - (pattern.includes('{day-second*') ? 0.4 : 0);
}
