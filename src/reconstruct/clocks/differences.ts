/** An offset from pairs of instants with the same meaning: headers and log lines of one train, receiver time stamps. */
import { median, robustSpread } from '../../model/index.js';

/** An offset between two clocks: `other − reference`, ms. */
export interface ClockOffset {
  readonly offsetMs: number;
  /** Robust spread of the pairs ÷ √pairs, at least 1 ms resolution. */
  readonly uncertaintyMs: number;
  readonly spreadMs: number;
  readonly pairs: number;
}

/** Minimum number of pairs, and their maximum robust spread in ms, before times are shifted. */
const MIN_PAIRS = 3;
const MAX_SPREAD_MS = 1500;
/** Headers and log that differ by less than this agree, ms. */
const AGREEING_MS = 1000;
/** Maximum distance of exposures that may be the same one without a common name: a day and some hours, ms. */
const MAX_OFFSET_MS = 26 * 3600_000;
const BIN_MS = 2000;
/** Minimum fraction of exposures that must coincide under one shift. */
const COINCIDING_SHARE = 0.6;

/** Median difference with its uncertainty, or `null` without pairs. */
export function offsetOf(differencesMs: readonly number[]): ClockOffset | null {
  if (differencesMs.length === 0) return null;
  const spreadMs = robustSpread(differencesMs);
  return {
    offsetMs: Math.round(median(differencesMs)),
    spreadMs,
    uncertaintyMs: Math.max(1, Math.round((1.2533 * spreadMs) / Math.sqrt(differencesMs.length))),
    pairs: differencesMs.length,
  };
}

/** Whether an offset is determined well enough to shift times by it. */
export function isWellDetermined(offset: ClockOffset): boolean {
  // A single pair that agrees is not chance: clocks that differ do so by more.
  const isAgreeing = Math.abs(offset.offsetMs) <= AGREEING_MS;
  return (offset.pairs >= MIN_PAIRS || isAgreeing) && offset.spreadMs <= MAX_SPREAD_MS;
}

/** An exposure by its begin and length, ms. */
export interface TimedExposure {
  readonly beginMs: number;
  readonly lengthMs: number;
}

/**
 * The shift under which most exposures of two lists coincide, if no file name pairs them: begins and lengths only.
 * `null` unless most of the shorter list do, and clearly more than under any other shift.
 */
export function offsetBySequence(
  reference: readonly TimedExposure[],
  other: readonly TimedExposure[],
): ClockOffset | null {
  const differences: number[] = [];
  for (const y of other)
    for (const x of reference)
      if (Math.abs(x.lengthMs - y.lengthMs) <= BIN_MS && Math.abs(y.beginMs - x.beginMs) <= MAX_OFFSET_MS)
        differences.push(y.beginMs - x.beginMs);
  if (differences.length === 0) return null;
  const sorted = differences.sort((a, b) => a - b);
  const best = fullest(sorted, null);
  const next = fullest(sorted, best.centreMs);
  const fewest = Math.max(MIN_PAIRS, COINCIDING_SHARE * Math.min(reference.length, other.length));
  if (best.count < fewest || next.count > 0.8 * best.count) return null;
  return offsetOf(sorted.filter((d) => Math.abs(d - best.centreMs) <= BIN_MS));
}

/** Centre of the fullest window of width `BIN_MS`, distinct from another one; of equals the one nearest to zero. */
function fullest(sorted: readonly number[], awayFromMs: number | null): { count: number; centreMs: number } {
  let best = { count: 0, centreMs: 0 };
  let high = 0;
  sorted.forEach((from, low) => {
    while (high < sorted.length && (sorted[high] ?? Infinity) - from <= BIN_MS) high++;
    const centreMs = (from + (sorted[high - 1] ?? from)) / 2;
    if (awayFromMs !== null && Math.abs(centreMs - awayFromMs) <= 2 * BIN_MS) return;
    const count = high - low;
    if (count > best.count || (count === best.count && Math.abs(centreMs) < Math.abs(best.centreMs)))
      best = { count, centreMs };
  });
  return best;
}

/** Multiples of a quarter hour, within a few seconds: differences of zones, not of clocks. */
export function isZoneLike(offsetMs: number): boolean {
  const quarter = 900_000;
  return (
    Math.abs(offsetMs) >= 2 * quarter - 10_000 &&
    Math.abs(offsetMs - Math.round(offsetMs / quarter) * quarter) <= 10_000
  );
}
