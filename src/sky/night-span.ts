import { DateTime, FixedOffsetZone, IANAZone } from 'luxon';
import { contains, interval, zoneByLongitude } from '../model/index.js';
import type { Interval, Site } from '../model/index.js';

const NOON_HOUR = 12;

/**
 * The time zone whose noon divides the nights: the site's own if known to this computer, else the whole-hour zone of
 * the longitude (`UTC+2`), else `UTC`.
 *
 * @param timezone IANA name or `UTC±h`
 * @param longitudeDeg degrees, east positive
 */
export function nightZone(timezone: string | undefined, longitudeDeg: number | undefined): string {
  if (timezone !== undefined && isZone(timezone)) return timezone;
  if (longitudeDeg === undefined || !Number.isFinite(longitudeDeg)) return 'UTC';
  return zoneByLongitude(longitudeDeg);
}

/** The zone of a site's nights; UTC where it is unknown. */
export function zoneOf(site: Pick<Site, 'timezone' | 'longitudeDeg'> | null): string {
  return nightZone(site?.timezone, site?.longitudeDeg);
}

/** The nights that instants (UTC ms) belong to, sorted. */
export function datesOf(instantsMs: readonly number[], timezone: string): string[] {
  const dates = new Set<string>();
  let known: Interval | null = null;
  for (const atMs of instantsMs) {
    // Formatting a date costs much more than checking whether the instant is in the last night found.
    if (known && contains(known, atMs)) continue;
    const date = nightOf(atMs, timezone);
    known = nightSpan(date, timezone);
    dates.add(date);
  }
  return [...dates].sort();
}

/**
 * The night an instant belongs to, `YYYY-MM-DD`: from one local noon to the next, named by the evening's date.
 *
 * @param atMs UTC milliseconds since the epoch
 * @param timezone IANA name or `UTC±h`
 * @throws RangeError for an unknown time zone or an impossible instant
 */
export function nightOf(atMs: number, timezone: string): string {
  const instant = new Date(atMs);
  if (Number.isNaN(instant.getTime())) throw new RangeError(`no such instant: ${atMs} ms`);
  const local = DateTime.fromJSDate(instant, { zone: requireZone(timezone) });
  // Eighteen hours before any morning is well inside the previous day, whatever the clocks did in the night.
  const evening = local.hour < NOON_HOUR ? local.minus({ hours: 18 }) : local;
  // Fixed digits and calendar, whatever the computer's language.
  return evening
    .reconfigure({ locale: 'en', numberingSystem: 'latn', outputCalendar: 'gregory' })
    .toFormat('yyyy-MM-dd');
}

/**
 * The span of a night: local noon of its date to local noon of the next, UTC ms. 23 or 25 hours long when the clocks
 * change in it.
 *
 * @param date the evening's local date, `YYYY-MM-DD`
 * @param timezone IANA name or `UTC±h`
 * @throws RangeError for an unknown time zone or an invalid date
 */
export function nightSpan(date: string, timezone: string): Interval {
  const zone = requireZone(timezone);
  const day = /^\d{4}-\d{2}-\d{2}$/.test(date) ? DateTime.fromISO(date, { zone: 'utc' }) : null;
  if (!day?.isValid) throw new RangeError(`"${date}" is not a date: write YYYY-MM-DD`);
  return interval(noonMs(day, zone), noonMs(day.plus({ days: 1 }), zone));
}

/** A zone's offset from UTC at an instant, ms; east is positive. */
export function zoneOffsetMs(timezone: string, atMs: number): number {
  return DateTime.fromMillis(atMs, { zone: requireZone(timezone) }).offset * 60_000;
}

function noonMs({ year, month, day }: DateTime, zone: string): number {
  return DateTime.fromObject({ year, month, day, hour: NOON_HOUR }, { zone }).toMillis();
}

/** Cache of names: the check creates a formatter each time, and nights are requested by the thousand. */
const answers = new Map<string, boolean>();

/** Not luxon's own check, which also accepts `local`: a night must not depend on the computer it is reported on. */
function isZone(timezone: string): boolean {
  const known = answers.get(timezone);
  if (known !== undefined) return known;
  const answer = IANAZone.isValidZone(timezone) || FixedOffsetZone.parseSpecifier(timezone) !== null;
  answers.set(timezone, answer);
  return answer;
}

function requireZone(timezone: string): string {
  if (!isZone(timezone))
    throw new RangeError(`unknown time zone "${timezone}": use an IANA name such as Europe/Madrid`);
  return timezone;
}
