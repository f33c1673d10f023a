import { clockOf } from '../model/index.js';

const DAY_MS = 86_400_000;

/**
 * The time stamp of a shared edition: only its date, in UTC. After `--wait` the hour is that of the sunrise, and
 * several nights would reveal the location of the site.
 */
export function dayOf(nowMs: number): number {
  return Math.floor(nowMs / DAY_MS) * DAY_MS;
}

/** Who made a page, and when; without a time of day if only the date is known. */
export function madeText(version: string, nowMs: number): string {
  const utc = clockOf('UTC');
  const hour = nowMs === dayOf(nowMs) ? '' : ` at ${utc.time(nowMs)} UTC`;
  return `Made by nightledger ${version} on ${utc.date(nowMs)}${hour}.`;
}
