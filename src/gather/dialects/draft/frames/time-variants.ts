import { swappedOrder } from '../../time/swapped-order.js';
import type { DraftReport } from '../report.js';
import type { StampGuess } from '../time/guess.js';

/** Units of counters in seconds, the usual ones first (common practice, no source). */
export const UNITS = [1, 0.001, 0.1, 0.01, 60, 3600, 86_400, 0.5, 0.25, 2, 4, 5, 10, 864, 86.4, 0.05, 0.02, 0.015625];
const WEEK_S = 604_800;
const DAY_S = 86_400;
/** Stamps without a date. */
const HAS_DATE = /\{(?:day|month|day-of-year|week-date|serial-day|epoch|julian|mjd|elapsed)/;
const HAS_TIME = /\{(?:hour|hour12|night-hour|day-second|day-ms|day-fraction)/;
const isOfDayAlone = (pattern: string): boolean => HAS_TIME.test(pattern) && !HAS_DATE.test(pattern);

/**
 * Other readings of the same stamps: another zone, date, order of the date, unit or base. The stamps stay where they
 * are in the lines, so that the rules hold.
 */
export function* timeVariants(report: DraftReport): Generator<DraftReport> {
  const { stamp, zone, date } = report;
  if (stamp === null) return;
  if (isCount(stamp)) {
    yield* countVariants(report, stamp);
    return;
  }
  const { ahead: _, ...asShown } = report;
  if (report.ahead !== undefined) yield asShown;
  const zones = ['site', 'utc'].filter((one) => one !== zone);
  for (const one of zones) yield { ...asShown, zone: one };
  const isOfDay = isOfDayAlone(stamp.pattern);
  if (isOfDay && date.from !== 'session') {
    yield { ...asShown, date: { from: 'session' } };
    for (const one of zones) yield { ...asShown, date: { from: 'session' }, zone: one };
  }
  if (date.from === 'header') {
    const turned: DraftReport = { ...asShown, date: { ...date, evening: !date.evening } };
    yield turned;
    for (const one of zones) yield { ...turned, zone: one };
  }
  const swapped = swappedOrder(stamp.pattern);
  if (swapped !== null) yield { ...asShown, stamp: { ...stamp, pattern: swapped }, orderIsOpen: false };
  if (!isOfDay) {
    const { evening, ...others } = stamp;
    yield { ...asShown, stamp: evening === true ? others : { ...stamp, evening: true } };
  }
  for (const pattern of otherParts(stamp.pattern)) {
    const own: DraftReport = { ...asShown, stamp: { ...stamp, pattern } };
    yield own;
    if (isOfDayAlone(pattern) && date.from !== 'session') yield { ...own, date: { from: 'session' } };
  }
}

/** The same marks with other parts of the time: a dial of twelve hours, parts in another order. */
function otherParts(pattern: string): string[] {
  const found: string[] = [];
  if (pattern.includes('{hour}')) found.push(pattern.replace('{hour}', '{hour12}'));
  if (pattern.includes('{hour12}') && !pattern.includes('{am-pm}')) found.push(pattern.replace('{hour12}', '{hour}'));
  const parts = ['{hour}', '{minute}', '{second}'];
  if (parts.every((part) => pattern.includes(part)))
    for (const order of [
      '{second} {minute} {hour}',
      '{minute} {hour} {second}',
      '{minute} {second} {hour}',
      '{hour} {second} {minute}',
      '{second} {hour} {minute}',
    ]) {
      const turned = order.split(' ');
      found.push(pattern.replace(/\{(?:hour|minute|second)\}/g, (part) => turned[parts.indexOf(part)] ?? part));
    }
  return found;
}

/** Whether stamps count from some instant. */
export function isCount({ pattern }: StampGuess): boolean {
  return pattern.includes('{elapsed');
}

/** Counts in another unit, from an instant that the frames give; a number before the count may be its higher part. */
function* countVariants(report: DraftReport, stamp: StampGuess): Generator<DraftReport> {
  const { ahead: _, ...asShown } = report;
  const { wraps, since, from, ...own } = stamp;
  const based = (pattern: string): DraftReport => ({
    ...asShown,
    stamp: { ...own, pattern },
    sections: [{ from: SOME_BASE }],
    date: { from: 'line' },
    zone: 'utc',
    zoneBy: null,
  });
  yield based(stamp.pattern);
  if (wraps !== undefined) yield { ...based(stamp.pattern), stamp: { ...own, wraps } };
  const count = /\{elapsed(?:\*[-\d.e]+)?\}/.exec(stamp.pattern)?.[0];
  if (count === undefined) return;
  const before = stamp.pattern.slice(0, stamp.pattern.indexOf(count));
  if (/\{number\}\D{0,3}$/.test(before))
    for (const higher of [WEEK_S, DAY_S, 1000, 3600])
      yield based(stamp.pattern.replace(/\{number\}(?=\D{0,3}\{elapsed)/, `{elapsed*${higher}}`));
  for (const unit of UNITS) {
    const other = unit === 1 ? '{elapsed}' : `{elapsed*${unit}}`;
    if (other !== count) yield based(stamp.pattern.replace(count, other));
  }
  if (since === undefined) return;
  yield { ...asShown, stamp: { ...own, since }, sections: [{ from: SOME_BASE }], zone: 'utc', zoneBy: null };
}

/** A base that the frames replace by theirs. */
export const SOME_BASE = '2020-01-01T00:00:00.000Z';
