import { newStamp, type StampPattern } from '../../time/stamp.js';

/** How well a time pattern fares on the lines of a log, shares of one. */
export interface Proof {
  /** Lines that it reads. */
  readonly coverage: number;
  /** Steps from one reading to the next that go forward, or past midnight. */
  readonly forward: number;
  /** Readings that fall into years in which digital logs are written. */
  readonly plausible: number;
  /** The first reading, UTC ms where it holds a date; NaN without one. */
  readonly firstMs: number;
  /** From the first reading to the last. */
  readonly spanMs: number;
}

const DAY_MS = 86_400_000;
/** Share of the readings that are different ones, at least; several lines may share a second. */
const FEW_INSTANTS = 0.04;
/** Lines may be written a little out of order. */
const JITTER_MS = 10_000;
const EARLIEST_MS = Date.UTC(2000, 0, 1);
const LATEST_MS = Date.UTC(2060, 0, 1);
/** A two-digit number that could be the year is one of these more likely than an earlier one. */
const USUAL_MS = Date.UTC(2020, 0, 1);

/** A count of seconds hardly ever goes back, and then by little: measured values do so at every other step. */
const ELAPSED_JITTER_MS = 300;

/** Tries a pattern on lines, in their order. */
export function proofOf(pattern: StampPattern, anywhere: boolean, lines: readonly string[]): Proof {
  const stamp = newStamp();
  let read = 0;
  let forward = 0;
  let steps = 0;
  let plausible = 0;
  let lastMs = NaN;
  let firstMs = NaN;
  const instants = new Set<number>();
  for (const line of lines) {
    const bytes = Buffer.from(line.slice(0, 400));
    const found = anywhere
      ? pattern.find(bytes, 0, bytes.length, stamp)
      : pattern.readAt(bytes, 0, bytes.length, stamp);
    if (!found) continue;
    read++;
    const { ms } = stamp;
    const dated = pattern.kind === 'epoch' || pattern.kind === 'date-time';
    plausible += !dated ? 1 : ms < EARLIEST_MS || ms > LATEST_MS ? 0 : ms < USUAL_MS ? 0.8 : 1;
    if (!Number.isNaN(lastMs)) {
      steps++;
      const pastMidnight = pattern.kind === 'time' && ms - lastMs < -DAY_MS / 2;
      if (ms >= lastMs - (pattern.kind === 'elapsed' ? ELAPSED_JITTER_MS : JITTER_MS) || pastMidnight) forward++;
      // A night's log goes on within hours; a jump of many days from line to line is a wrong order of the date.
      if (dated && ms - lastMs > 20 * DAY_MS) forward--;
    }
    lastMs = ms;
    if (Number.isNaN(firstMs)) firstMs = ms;
    instants.add(ms);
  }
  // A clock goes on: what reads the same over and over is a date, or something else.
  if (read === 0 || (read > 3 && instants.size <= Math.max(1, FEW_INSTANTS * read)))
    return { coverage: read > 0 ? 0.01 : 0, forward: 0, plausible: 0, firstMs: NaN, spanMs: 0 };
  return {
    coverage: read / lines.length,
    forward: steps === 0 ? 1 : Math.max(0, forward / steps),
    plausible: plausible / read,
    firstMs,
    spanMs: lastMs - firstMs,
  };
}
