/**
 * The whole-hour zone of a longitude (`UTC+2`, `UTC`): local mean time to the hour, good enough to find a night's noon.
 * Degrees, east positive, on any turn.
 */
export function zoneByLongitude(longitudeDeg: number): string {
  const turn = Math.abs(longitudeDeg) <= 180 ? 0 : 360 * Math.round(longitudeDeg / 360);
  return zoneOfHours(Math.round((longitudeDeg - turn) / 15));
}

/** `UTC+2`, `UTC`, `UTC-7`. */
function zoneOfHours(hours: number): string {
  return hours === 0 ? 'UTC' : `UTC${hours > 0 ? '+' : '-'}${Math.abs(hours)}`;
}

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/**
 * The zone whose noon falls into the longest daily pause of all activity: nights are split there if no site determines
 * noon. All days are superimposed, so that several nights need not be separated first.
 *
 * @param instantsMs UTC ms, in any order
 * @returns the whole-hour zone and the pause, or `null` without instants
 */
export function zoneByPause(instantsMs: readonly number[]): { zone: string; pauseMs: number; noonMs: number } | null {
  const ofDay = [...new Set(instantsMs.map((ms) => ((ms % DAY_MS) + DAY_MS) % DAY_MS))].sort((a, b) => a - b);
  const first = ofDay[0];
  if (first === undefined) return null;
  let best = { pauseMs: -1, middleMs: 0 };
  ofDay.forEach((atMs, i) => {
    const nextMs = ofDay[i + 1] ?? first + DAY_MS;
    if (nextMs - atMs > best.pauseMs) best = { pauseMs: nextMs - atMs, middleMs: atMs + (nextMs - atMs) / 2 };
  });
  const hours = Math.round(12 - best.middleMs / HOUR_MS);
  const wrapped = hours <= -12 ? hours + 24 : hours;
  return {
    zone: zoneOfHours(wrapped),
    pauseMs: best.pauseMs,
    noonMs: ((((12 - wrapped) * HOUR_MS) % DAY_MS) + DAY_MS) % DAY_MS,
  };
}

/** A light's field and midpoint: where it was pointed, and when. */
export interface PointedLight {
  readonly raDeg: number;
  readonly atMs: number;
}

/** A field farther from the meridian than this is low or set at most sites, hours. Common practice, no source. */
const HIGH_HOURS = 6;
/** The mean Sun is up for half of the day, averaged over the year: between these hours of its own time. */
const SUN_UP = { fromHour: 6, toHour: 18 };

/**
 * The whole-hour zone under which the fewest lights are in daylight by the mean Sun or far from the meridian; of
 * several, the one with fields closest to it. `null` without lights.
 */
export function zoneBySky(lights: readonly PointedLight[]): string | null {
  if (lights.length === 0) return null;
  const score = (zoneHours: number): { impossible: number; away: number } => {
    let [impossible, away] = [0, 0];
    for (const { raDeg, atMs } of lights) {
      const solarHour = wrapped(atMs / HOUR_MS + zoneHours, 24);
      const hourAngle = Math.abs(wrapped(siderealHours(atMs) + zoneHours - raDeg / 15 + 12, 24) - 12);
      if (solarHour >= SUN_UP.fromHour && solarHour < SUN_UP.toHour) impossible++;
      if (hourAngle > HIGH_HOURS) impossible++;
      away += hourAngle;
    }
    return { impossible, away };
  };
  const zones = Array.from({ length: 24 }, (_, i) => ({ hours: i - 11, ...score(i - 11) }));
  const best = zones.reduce((a, b) =>
    b.impossible < a.impossible || (b.impossible === a.impossible && b.away < a.away) ? b : a,
  );
  return zoneOfHours(best.hours);
}

/** Mean sidereal time at Greenwich, hours: the linear terms of IAU 1982, from memory; good to a second for decades. */
function siderealHours(atMs: number): number {
  const days = (atMs - Date.UTC(2000, 0, 1, 12)) / DAY_MS;
  return wrapped(18.697374558 + 24.06570982441908 * days, 24);
}

function wrapped(value: number, turn: number): number {
  return ((value % turn) + turn) % turn;
}

/** How far a zone's offset is from solar time at a longitude, hours, 0…12: detects a zone that contradicts the site. */
export function hoursFromSun(offsetMinutes: number, longitudeDeg: number): number {
  const hours = Math.abs(offsetMinutes / 60 - longitudeDeg / 15) % 24;
  return Math.min(hours, 24 - hours);
}
