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
 * The zone whose noon falls into the longest daily pause of whatever was done: where no site tells when noon is, nights
 * are cut there. All days are laid over one another, so that several nights need not be told apart first.
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

/** How far a zone's offset is from the Sun's time at a longitude, hours, 0…12: a zone that contradicts its place. */
export function hoursFromSun(offsetMinutes: number, longitudeDeg: number): number {
  const hours = Math.abs(offsetMinutes / 60 - longitudeDeg / 15) % 24;
  return Math.min(hours, 24 - hours);
}
