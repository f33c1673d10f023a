import { newStamp, type StampPattern } from '../../time/stamp.js';
import { increment } from './counting.js';
import { zoneAhead } from './same-instant.js';

const QUARTER_MIN = 15;
const QUARTER_MS = QUARTER_MIN * 60_000;
/** Maximum offset of a zone from UTC. */
const MOST_MINUTES = 14 * 60;
/** Minimum number of adjacent readings of both clocks, and fraction of them with the same difference. */
const MIN_CHANGES = 3;
const STEADY = 0.9;

/** The reading of one of a log's two clocks on a line. */
export interface ClockReading {
  readonly isFirst: boolean;
  /** As written, ms. */
  readonly ms: number;
  /** Minutes east of UTC, if stated. */
  readonly offset: number | null;
}

/**
 * How far the second clock of a log is ahead of the first, a multiple of a quarter hour, if one of the two states its
 * zone: that determines the other's. `null` if neither or both do, or if the difference is not constant.
 */
export function clocksApart(
  readings: readonly ClockReading[],
): { readonly aheadMs: number; readonly zone: string } | null {
  const offsets = [true, false].map(
    (first) => new Set(readings.filter(({ isFirst }) => isFirst === first).map(({ offset }) => offset)),
  );
  const [stated] = offsets.filter((own) => !own.has(null));
  const [offset] = stated ?? [];
  if (stated?.size !== 1 || typeof offset !== 'number' || !offsets.some((own) => own.size === 1 && own.has(null)))
    return null;
  const quarters = new Map<string, number>();
  let changes = 0;
  readings.forEach(({ isFirst, ms }, i) => {
    const last = readings[i - 1];
    if (last === undefined || last.isFirst === isFirst) return;
    changes++;
    increment(quarters, String(Math.round(((isFirst ? -1 : 1) * (ms - last.ms)) / QUARTER_MS)));
  });
  const [quarter = '', count = 0] = [...quarters].sort((a, b) => b[1] - a[1])[0] ?? [];
  const minutes = Number(quarter) * QUARTER_MIN * (stated === offsets[0] ? 1 : -1) + offset;
  if (changes < MIN_CHANGES || count < STEADY * changes || Math.abs(minutes) > MOST_MINUTES) return null;
  return { aheadMs: Number(quarter) * QUARTER_MS, zone: minutes === 0 ? 'utc' : zoneAhead(minutes) };
}

/** The readings of lines that have a stamp with the date in one of two forms; empty if a form has none. */
export function readingsOf(first: StampPattern, second: StampPattern, lines: readonly string[]): ClockReading[] {
  if (![first, second].every(({ kind }) => kind === 'epoch' || kind === 'date-time')) return [];
  const stamp = newStamp();
  return lines.flatMap((line) => {
    const bytes = Buffer.from(line.slice(0, 400));
    const read = [first, second].find((pattern) => pattern.readAt(bytes, 0, bytes.length, stamp));
    if (read === undefined) return [];
    const stated = Number.isNaN(stamp.offsetMinutes) ? 0 : stamp.offsetMinutes;
    return [{ isFirst: read === first, ms: stamp.ms, offset: read.hasOffset ? stated : null }];
  });
}
