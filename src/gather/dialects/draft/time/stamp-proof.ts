import { newStamp, type StampKind, type StampPattern, type StampPlace } from '../../time/stamp.js';

/** Score of a time pattern on the lines of a log, as fractions. */
export interface Proof {
  /** Lines that it reads. */
  readonly coverage: number;
  /** Steps between readings that go forward, or past midnight. */
  readonly forward: number;
  /** Readings in years in which digital logs are written. */
  readonly plausible: number;
  /** The first reading, UTC ms if it holds a date; NaN without one. */
  readonly firstMs: number;
  /** Number of different dates among the readings. */
  readonly days: number;
  /** Steps of one, as an index has. */
  readonly steady: number;
  /** From the first reading to the last. */
  readonly spanMs: number;
}

const DAY_MS = 86_400_000;
/** Minimum fraction of distinct readings; several lines may share a second. */
const FEW_INSTANTS = 0.04;
/** Lines may be written slightly out of order. */
const JITTER_MS = 10_000;
const EARLIEST_MS = Date.UTC(2000, 0, 1);
const LATEST_MS = Date.UTC(2060, 0, 1);
/** A two-digit number that may be the year is more likely one of these than an earlier one. */
const USUAL_MS = Date.UTC(2020, 0, 1);

/**
 * A counter hardly ever goes back, and then by little of its range, whatever its unit: measurements do at every other
 * step.
 */
const COUNT_JITTER = 0.02;

/** Tests a pattern on lines, in order. */
export function proofOf(pattern: StampPattern, at: StampPlace, lines: readonly string[]): Proof {
  const stamp = newStamp();
  const times: number[] = [];
  for (const line of lines) {
    const bytes = Buffer.from(at === 'end' ? line.slice(-400) : line.slice(0, 400));
    if (pattern.readIn(at, bytes, 0, bytes.length, stamp)) times.push(stamp.ms);
  }
  const read = times.length;
  const firstMs = times[0] ?? NaN;
  // A clock advances: a constant reading is a date, or something else.
  if (read === 0 || (read > 3 && new Set(times).size <= Math.max(1, FEW_INSTANTS * read)))
    return { coverage: read > 0 ? 0.01 : 0, forward: 0, plausible: 0, firstMs: NaN, days: 0, steady: 0, spanMs: 0 };
  return {
    coverage: read / lines.length,
    forward: forwardShare(times, pattern.kind),
    plausible: isDated(pattern.kind) ? times.reduce((sum, ms) => sum + plausibility(ms), 0) / read : 1,
    firstMs,
    days: new Set(times.map((ms) => Math.floor(ms / DAY_MS))).size,
    steady: steadyShare(times),
    spanMs: (times[read - 1] ?? NaN) - firstMs,
  };
}

function isDated(kind: StampKind): boolean {
  return kind === 'epoch' || kind === 'date-time';
}

function plausibility(ms: number): number {
  return ms < EARLIEST_MS || ms > LATEST_MS ? 0 : ms < USUAL_MS ? 0.8 : 1;
}

function forwardShare(times: readonly number[], kind: StampKind): number {
  if (times.length < 2) return 1;
  const [least = 0, most = 0] = extremes(times);
  const jitterMs = kind === 'elapsed' ? COUNT_JITTER * (most - least) : JITTER_MS;
  let forward = 0;
  times.forEach((ms, i) => {
    const stepMs = ms - (times[i - 1] ?? NaN);
    if (Number.isNaN(stepMs)) return;
    if (stepMs >= -jitterMs || (kind === 'time' && stepMs < -DAY_MS / 2)) forward++;
    // A night's log continues within hours; a jump of many days between lines indicates a wrong date order.
    if (isDated(kind) && stepMs > 20 * DAY_MS) forward--;
  });
  return Math.max(0, forward / (times.length - 1));
}

/** An index of lines increases by one. */
const ONE_MS = 1000;

function steadyShare(times: readonly number[]): number {
  const equal = times.filter((ms, i) => i > 0 && ms - (times[i - 1] ?? NaN) === ONE_MS).length;
  return equal / Math.max(1, times.length - 1);
}

function extremes(values: readonly number[]): readonly [number, number] {
  return values.reduce<readonly [number, number]>(
    ([least, most], value) => [Math.min(least, value), Math.max(most, value)],
    [Infinity, -Infinity],
  );
}
