/**
 * When the shutter was open, from the dates of a header.
 */
import { EARLIEST_YEAR, isPlausibleInstant, LATEST_YEAR } from '../../vocabulary/bounds.js';
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
import type { Meaning } from './keywords.js';
import { type HeaderNote, show } from './notes.js';

/** Exposure time and shutter span of one header. */
export interface ExposureTime {
  /** As the header states it, seconds. */
  readonly seconds?: number;
  /** UTC. Without an exposure time the span is empty, at the start. Absent when there is no usable date. */
  readonly span?: Interval;
}

/** Longer than any exposure (common practice, no source): milliseconds for seconds show here, and sums of stacks. */
const MAX_EXPOSURE_SECONDS = 4 * 3600;
const EXPOSURE_RANGE = { from: 0, to: MAX_EXPOSURE_SECONDS };
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
}

interface DateSource {
  readonly find: (reader: CardReader) => Instant | undefined;
  /** The part of the exposure that lies before the instant. */
  readonly share: 0 | 0.5 | 1;
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
 * The start is DATE-BEG or DATE-OBS; where only the middle or the end is dated it follows from the exposure time;
 * MJD and JD come last. TIMESYS says in which scale (UTC when absent).
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
  if (start.ms > nowMs) reader.notes.push(dateInFuture(start));
  if (lengthMs !== undefined) return { seconds, span: interval(start.ms, start.ms + lengthMs) };

  const end = dateOf(reader, 'dateEnd');
  const endMs = end === undefined ? start.ms : toUtcMs(end.ms, timeScale(reader));
  if (endMs <= start.ms) reader.notes.push(MISSING_EXPOSURE_TIME);
  return { span: interval(start.ms, Math.max(start.ms, endMs)) };
}

function exposureSeconds(reader: CardReader): number | undefined {
  const stated = reader.number('exposureSeconds', EXPOSURE_RANGE);
  if (stated !== undefined) return stated;
  const unit = durationUnitSeconds(reader);
  if (unit === undefined) return undefined;
  const duration = reader.number('exposureInTimeUnit', { from: 0, to: MAX_EXPOSURE_SECONDS / unit });
  return duration === undefined ? undefined : duration * unit;
}

/** Seconds in the unit that TIMEUNIT names (seconds when absent); `undefined` for one that is not known. */
export function durationUnitSeconds(reader: CardReader): number | undefined {
  return UNIT_SECONDS.get(reader.text('timeUnit') ?? 's');
}

/** The start in UTC. */
function findStart(reader: CardReader, lengthMs: number | undefined): Instant | undefined {
  for (const { find, share } of DATE_SOURCES) {
    const instant = find(reader);
    if (instant === undefined) continue;
    const afterMs = share === 0 ? 0 : lengthMs === undefined ? undefined : share * lengthMs;
    if (afterMs === undefined) continue;
    const scale = timeScale(reader);
    if (!isKnownScale(scale)) reader.notes.push(unknownTimeScale(reader, scale));
    if (share !== 0) reader.notes.push(derivedStart(instant.keyword, share));
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
    return { ms, keyword: keyword.name };
  }
  return undefined;
}

/** Joins a date without a time of day to TIME-OBS or its like, which belongs to the start alone. */
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

const SET_CLOCK = 'Set the clock of the camera computer, best by network time.';
const CHECK_PROGRAM = 'Check what the capture program writes there.';

const MISSING_DATE: HeaderNote = {
  code: 'missing-date',
  card: 'DATE-OBS',
  what: 'the header holds no usable date, so the frame has no place in the night',
  remedy: 'Have the capture program write DATE-OBS, or name the keyword it uses in the rig file.',
};

const MISSING_EXPOSURE_TIME: HeaderNote = {
  code: 'missing-exposure-time',
  card: 'EXPTIME',
  what: 'the header holds no usable exposure time, so only the start is known',
  remedy: 'Have the capture program write EXPTIME, or name the keyword it uses in the rig file.',
};

function unreadableDate(card: string, text: string): HeaderNote {
  return {
    code: 'unreadable-date',
    card,
    what: `${card} is ${show(text)}, which is no date of the years ${EARLIEST_YEAR} to ${LATEST_YEAR}; it was left out`,
    remedy: CHECK_PROGRAM,
  };
}

function dateWithoutTime(card: string): HeaderNote {
  return {
    code: 'date-without-time',
    card,
    what: `${card} has no time of day, and no card gives one; it was left out`,
    remedy: 'Have the capture program write the time too, as YYYY-MM-DDThh:mm:ss.',
  };
}

function oddDate(card: string, text: string, oddity: NonNullable<DateTime['oddity']>, ms: number): HeaderNote {
  const read = new Date(ms).toISOString();
  return oddity === 'two-digit-year'
    ? {
        code: oddity,
        card,
        what: `${card} is ${show(text)}, a form for the years 1900 to 1999 only; it was read as ${read.slice(0, 10)}`,
        remedy: 'Have the capture program write YYYY-MM-DDThh:mm:ss.',
      }
    : {
        code: oddity,
        card,
        what: `${card} is ${show(text)} with a time zone, which FITS does not know; it was read as ${read}`,
        remedy: 'Have the capture program write UTC without a zone.',
      };
}

function derivedStart(card: string, share: 0.5 | 1): HeaderNote {
  return {
    code: 'derived-start',
    card,
    what:
      `no card dates the start of the exposure; it was computed from ${card} less ` +
      `${share === 1 ? 'the' : 'half the'} exposure time`,
    remedy: 'Have the capture program write DATE-OBS.',
  };
}

function unknownTimeScale(reader: CardReader, scale: string): HeaderNote {
  const card = reader.firstName('timeScale') ?? 'TIMESYS';
  return {
    code: 'unknown-time-scale',
    card,
    what: `${card} is ${show(scale)}, a time scale that cannot be brought to UTC; the dates were taken as UTC`,
    remedy: 'Have the capture program write UTC.',
  };
}

function dateInFuture({ keyword, ms }: Instant): HeaderNote {
  return {
    code: 'date-in-future',
    card: keyword,
    what: `${keyword} gives ${new Date(ms).toISOString()}, which is still to come`,
    remedy: SET_CLOCK,
  };
}
