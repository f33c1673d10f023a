import { clockOf } from '../model/index.js';

const DAY_MS = 86_400_000;

/**
 * The moment that a shared edition bears: its day alone, in UTC. After `--wait` the hour is that of the sunrise, and
 * some nights of it would tell where the site is.
 */
export function dayOf(nowMs: number): number {
  return Math.floor(nowMs / DAY_MS) * DAY_MS;
}

/** Who made a page, and when; without an hour where only the day is known. */
export function madeText(version: string, nowMs: number): string {
  const utc = clockOf('UTC');
  const hour = nowMs === dayOf(nowMs) ? '' : ` at ${utc.time(nowMs)} UTC`;
  return `Made by nightledger ${version} on ${utc.date(nowMs)}${hour}.`;
}
