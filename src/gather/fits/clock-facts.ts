/** Header facts about its own clock: how accurate it is, and what a wall clock showed. */
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

/** Whether a header states that its clock is right to a second. */
export function isClockVouched(reader: CardReader): boolean {
  const keeper = reader.text('timeSource');
  if (keeper !== undefined && KEEPERS.test(keeper)) return true;
  const unit = durationUnitSeconds(reader);
  const error = reader.number('timeError', { from: 0, to: Number.MAX_SAFE_INTEGER });
  // An error of exactly zero is a card filled in without knowledge.
  return unit !== undefined && error !== undefined && error > 0 && error * unit <= TRUE_SECONDS;
}

/** Local time minus UTC, minutes, in multiples of a quarter hour; `undefined` if the header does not state it. */
export function localOffsetMinutes(reader: CardReader): number | undefined {
  const local = dateOf(reader, 'dateLocal');
  if (local === undefined) return undefined;
  const utc = dateOf(reader, 'dateBegin');
  if (utc === undefined) return undefined;
  const minutes = (local - utc) / 60_000;
  const zone = Math.round(minutes / QUARTER_MINUTES) * QUARTER_MINUTES;
  return zone >= WESTMOST && zone <= EASTMOST && Math.abs(minutes - zone) <= 1 ? zone : undefined;
}

/** The first readable date with a time of day. Others are not reported here, but for the begin, where they count. */
function dateOf(reader: CardReader, meaning: 'dateLocal' | 'dateBegin'): number | undefined {
  for (const keyword of reader.keywords(meaning)) {
    const date = reader.has(keyword) ? parseDateTime(asText(reader.value(keyword))) : undefined;
    // A time with its own zone is an instant and not wall clock time.
    if (date?.hasTime && date.oddity === undefined) return date.ms;
  }
  return undefined;
}
