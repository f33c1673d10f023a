/**
 * What a header says of its own clock: how true it is, and what the clock on the wall showed.
 */
import { asText, type CardReader } from './card-reader.js';
import { parseDateTime } from './dates.js';
import { durationUnitSeconds } from './exposure-time.js';

/** A clock that is true to this decides between others, seconds. */
const TRUE_SECONDS = 1;
/** Receivers and time servers as headers name them: satellite time, network time, precision time, pulse per second. */
const KEEPERS = /\b(?:gps|gnss|ntp|ptp|pps)\b/i;
const QUARTER_MINUTES = 15;
/** Zones in use lie within these, minutes (−12 h to +14 h). */
const WESTMOST = -720;
const EASTMOST = 840;

/** Whether a header says that its clock is true to a second. */
export function isClockVouched(reader: CardReader): boolean {
  const keeper = reader.text('timeSource');
  if (keeper !== undefined && KEEPERS.test(keeper)) return true;
  const unit = durationUnitSeconds(reader);
  const error = reader.number('timeError', { from: 0, to: Number.MAX_SAFE_INTEGER });
  // An error of nothing at all is a card filled in without knowing it.
  return unit !== undefined && error !== undefined && error > 0 && error * unit <= TRUE_SECONDS;
}

/** Local time less UTC, minutes, in whole quarters of an hour; `undefined` where the header does not say. */
export function localOffsetMinutes(reader: CardReader): number | undefined {
  const local = dateOf(reader, 'dateLocal');
  if (local === undefined) return undefined;
  const utc = dateOf(reader, 'dateBegin');
  if (utc === undefined) return undefined;
  const minutes = (local - utc) / 60_000;
  const zone = Math.round(minutes / QUARTER_MINUTES) * QUARTER_MINUTES;
  return zone >= WESTMOST && zone <= EASTMOST && Math.abs(minutes - zone) <= 1 ? zone : undefined;
}

/** The first readable date with a time of day. Others go unreported here: those of the begin are where they count. */
function dateOf(reader: CardReader, meaning: 'dateLocal' | 'dateBegin'): number | undefined {
  for (const keyword of reader.keywords(meaning)) {
    const date = reader.has(keyword) ? parseDateTime(asText(reader.value(keyword))) : undefined;
    // A time with its own zone is an instant and not what a clock on the wall shows.
    if (date?.hasTime && date.oddity === undefined) return date.ms;
  }
  return undefined;
}
