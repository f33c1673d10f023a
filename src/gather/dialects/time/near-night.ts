/** The log of a night begins within this of the night's date, ms. */
export const NEAR_NIGHT_MS = 1.75 * 86_400_000;

/** Whether a log that begins at an instant may belong to a night, both UTC ms; false if either is unknown (NaN). */
export function isNearNight(beginMs: number, nightMs: number): boolean {
  return Math.abs(beginMs - nightMs) < NEAR_NIGHT_MS;
}
