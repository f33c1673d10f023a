/**
 * Words for durations and instants in findings.
 */
import { DateTime } from 'luxon';
import type { Night } from '../model/index.js';

/** `1 h 05 m`, `38 m`. */
export function hoursAndMinutes(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  return minutes >= 60 ? `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} m` : `${minutes} m`;
}

/** `42 s`, `3 m 20 s`. */
export function seconds(ms: number): string {
  const whole = Math.round(ms / 1000);
  return whole < 90 ? `${whole} s` : `${Math.floor(whole / 60)} m ${String(whole % 60).padStart(2, '0')} s`;
}

/** Local time at the site, `23:14`. */
export function clock(atMs: number, night: Night): string {
  return DateTime.fromMillis(atMs, { zone: night.site?.timezone ?? 'utc' }).toFormat('HH:mm');
}
