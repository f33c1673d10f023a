/**
 * When the shutter was open, from the dates of a header.
 */
import { isPlausibleInstant } from '../../vocabulary/bounds.js';
import { type Interval, interval } from '../../model/interval.js';
import { asText, type CardReader, type NumberRange } from './card-reader.js';
import {
  type DateTime,
  isKnownScale,
  jdToMs,
  mjdToMs,
  parseDateTime,
  parseTimeOfDay,
  scaleName,
  toUtcMs,
} from './dates.js';
import {
  dateInFuture,
  dateWithoutTime,
  derivedLength,
  derivedStart,
  MISSING_DATE,
  MISSING_EXPOSURE_TIME,
  oddDate,
  unknownTimeScale,
  unreadableDate,
} from './exposure-notes.js';
import type { Meaning } from './keywords.js';
import { momentOf, type Share } from './moments.js';

/** Exposure time and shutter span of one header. */
export interface ExposureTime {
  /** As the header states it, seconds. */
  readonly seconds?: number;
  /** The stated value if longer than any exposure, in seconds or thousandths. */
  readonly unlikely?: number;
  /** UTC. Without an exposure time the span is empty, at the start. Absent when there is no usable date. */
  readonly span?: Interval;
}

/** Longer than any exposure (common practice, no source): milliseconds for seconds show here, and sums of stacks. */
const MAX_EXPOSURE_SECONDS = 4 * 3600;
const EXPOSURE_RANGE = { from: 0, to: MAX_EXPOSURE_SECONDS };
const UNLIKELY_RANGE = { from: MAX_EXPOSURE_SECONDS, to: MAX_EXPOSURE_SECONDS * 1000 };
/** Lengths between two dates are taken for whole seconds from here on, and this near to one (common practice). */
const TIDY_FROM_SECONDS = 5;
const TIDY_SECONDS = 0.25;
/** 1990 to 2099, as of dates: beyond, the clock or the card is wrong, and no record holds the night. */
const MJD_RANGE = { from: 47_892, to: 88_069, zeroIsUnknown: true };
const JD_RANGE = { from: 2_447_892.5, to: 2_488_069.5, zeroIsUnknown: true };
/** Units of the standard's durations (table 34), seconds. */
const UNIT_SECONDS: ReadonlyMap<string, number> = new Map([
  ['s', 1],
  ['min', 60],
  ['h', 3600],
  ['d', 86_400],
]);

/** An instant in the header's own time scale. */
interface Instant {
  readonly ms: number;
  readonly keyword: string;
  /** The card's comment, if it says that the instant is another moment than the keyword implies, and which. */
  readonly remark?: string;
  readonly share?: Share;
}

interface DateSource {
  readonly find: (reader: CardReader) => Instant | undefined;
  /** The part of the exposure that lies before the instant. */
  readonly share: Share;
}

/**
 * In order of trust: dates of the start, dates that the start follows from, and day numbers, whose digits may be few.
 */
const DATE_SOURCES: readonly DateSource[] = [
  { find: (reader) => dateOf(reader, 'dateBegin'), share: 0 },
  { find: (reader) => dateOf(reader, 'dateMiddle'), share: 0.5 },
  { find: (reader) => dateOf(reader, 'dateEnd'), share: 1 },
  { find: (reader) => dayNumberOf(reader, 'mjdBegin', MJD_RANGE, mjdToMs), share: 0 },
  { find: (reader) => dayNumberOf(reader, 'mjdMiddle', MJD_RANGE, mjdToMs), share: 0.5 },
  { find: (reader) => dayNumberOf(reader, 'mjdEnd', MJD_RANGE, mjdToMs), share: 1 },
  { find: (reader) => dayNumberOf(reader, 'jdBegin', JD_RANGE, jdToMs), share: 0 },
];

/**
 * Finds the exposure time and the shutter span.
 *
 * The start is DATE-BEG or DATE-OBS, unless the comment of the latter says that it is the middle or the end; if only
 * the middle or the end is dated, the start follows from the exposure time; MJD and JD come last. TIMESYS states the
 * scale (UTC when absent). If start and end are dated and no card states the exposure time, it is the difference.
 *
 * @param nowMs the present, UTC ms: later dates are reported
 */
export function exposureTime(reader: CardReader, nowMs: number): ExposureTime {
  const seconds = exposureSeconds(reader);
  const lengthMs = seconds === undefined ? undefined : Math.round(seconds * 1000);
  const start = findStart(reader, lengthMs);
  if (start === undefined) {
    reader.notes.push(MISSING_DATE);
    return { seconds };
  }
  if (start.ms > nowMs) reader.notes.push(dateInFuture(start.keyword, start.ms));
  if (lengthMs !== undefined) return { seconds, span: interval(start.ms, start.ms + lengthMs) };

  const end = dateOf(reader, 'dateEnd');
  const endMs = end === undefined ? start.ms : toUtcMs(end.ms, timeScale(reader));
  const betweenMs = endMs - start.ms;
  if (end === undefined || betweenMs <= 0 || betweenMs > MAX_EXPOSURE_SECONDS * 1000) {
    reader.notes.push(MISSING_EXPOSURE_TIME);
    const unlikely = reader.quiet().number('exposureSeconds', UNLIKELY_RANGE);
    return { unlikely, span: interval(start.ms, Math.max(start.ms, endMs)) };
  }
  reader.notes.push(derivedLength(start.keyword, end.keyword));
  return { seconds: tidySeconds(betweenMs), span: interval(start.ms, endMs) };
}

/**
 * Seconds between two dates recorded slightly apart from the shutter: rounded if nearly whole, so that frames of one
 * length have equal lengths.
 */
function tidySeconds(betweenMs: number): number {
  const seconds = betweenMs / 1000;
  const whole = Math.round(seconds);
  return whole >= TIDY_FROM_SECONDS && Math.abs(seconds - whole) <= TIDY_SECONDS ? whole : seconds;
}

function exposureSeconds(reader: CardReader): number | undefined {
  const stated = reader.number('exposureSeconds', EXPOSURE_RANGE);
  if (stated !== undefined) return stated;
  const unit = durationUnitSeconds(reader);
  if (unit === undefined) return undefined;
  const duration = reader.number('exposureInTimeUnit', { from: 0, to: MAX_EXPOSURE_SECONDS / unit });
  return duration === undefined ? undefined : duration * unit;
}

/** Seconds in the unit of TIMEUNIT (seconds when absent); `undefined` for an unknown one. */
export function durationUnitSeconds(reader: CardReader): number | undefined {
  return UNIT_SECONDS.get(reader.text('timeUnit') ?? 's');
}

/** The start in UTC. */
function findStart(reader: CardReader, lengthMs: number | undefined): Instant | undefined {
  for (const source of DATE_SOURCES) {
    const instant = source.find(reader);
    if (instant === undefined) continue;
    const { share = source.share } = instant;
    const afterMs = share === 0 ? 0 : lengthMs === undefined ? undefined : share * lengthMs;
    if (afterMs === undefined) continue;
    const scale = timeScale(reader);
    if (!isKnownScale(scale)) reader.notes.push(unknownTimeScale(reader.firstName('timeScale') ?? 'TIMESYS', scale));
    if (share !== 0) reader.notes.push(derivedStart(instant.keyword, share, instant.remark));
    return { ms: toUtcMs(instant.ms, scale) - Math.round(afterMs), keyword: instant.keyword };
  }
  return undefined;
}

function timeScale(reader: CardReader): string {
  return scaleName(reader.text('timeScale') ?? 'UTC');
}

/** The first of a meaning's keywords that holds a date with a time of day. */
function dateOf(reader: CardReader, meaning: Meaning): Instant | undefined {
  for (const keyword of reader.keywords(meaning)) {
    if (!reader.has(keyword)) continue;
    const text = asText(reader.value(keyword));
    const date = parseDateTime(text);
    if (date === undefined || !isPlausibleInstant(date.ms)) {
      reader.notes.push(unreadableDate(keyword.name, text));
      continue;
    }
    const ms = date.hasTime ? date.ms : withTimeOfDay(reader, meaning, keyword.name, date);
    if (ms === undefined) continue;
    if (date.oddity !== undefined) reader.notes.push(oddDate(keyword.name, text, date.oddity, ms));
    const remark = meaning === 'dateBegin' && keyword.name !== 'DATE-BEG' ? reader.remark(keyword) : undefined;
    const share = remark === undefined ? 0 : momentOf(remark);
    return share === 0 ? { ms, keyword: keyword.name } : { ms, keyword: keyword.name, remark, share };
  }
  return undefined;
}

/** Joins a date without a time of day with TIME-OBS or similar, which applies to the start only. */
function withTimeOfDay(reader: CardReader, meaning: Meaning, name: string, date: DateTime): number | undefined {
  if (meaning === 'dateBegin') {
    for (const clock of reader.keywords('timeOfDay')) {
      const time = parseTimeOfDay(asText(reader.value(clock)));
      if (time !== undefined) return date.ms + time;
    }
  }
  reader.notes.push(dateWithoutTime(name));
  return undefined;
}

function dayNumberOf(
  reader: CardReader,
  meaning: Meaning,
  range: NumberRange,
  toMs: (days: number) => number,
): Instant | undefined {
  for (const keyword of reader.keywords(meaning)) {
    const days = reader.numberOf(keyword, range);
    if (days !== undefined) return { ms: toMs(days), keyword: keyword.name };
  }
  return undefined;
}
