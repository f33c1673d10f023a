/**
 * One clock for the night. The reference is the pilot's log, because mount and guiding are written there; other
 * logs are brought to it by what both saw, and headers are compared with their own train's log.
 */
import { median, robustSpread, type ClockNote, type EventName, type LogEvent } from '../model/index.js';

/** Events of the shared mount and guiding that two computers may both write down. */
const SHARED_EVENTS: readonly EventName[] = [
  'dither-begin',
  'dither-end',
  'settle-begin',
  'settle-end',
  'flip-begin',
  'flip-end',
  'guiding-pause',
  'guiding-resume',
  'star-lost',
  'star-found',
];

/** Clocks apart by more than this are told, ms. Below it, capture programs' own delays explain the difference. */
export const CLOCK_TOLERANCE_MS = 2000;
/** At least this many pairs, agreeing this well (robust spread, ms), before times are shifted. */
const MIN_PAIRS = 3;
const MAX_SPREAD_MS = 1500;
/** Two computers farther apart than this are not searched: it would be another night. */
const MAX_OFFSET_MS = 26 * 3600_000;
const BIN_MS = 2000;

/** An offset between two clocks: `other − reference`, ms. */
export interface ClockOffset {
  readonly offsetMs: number;
  /** Robust spread of the pairs ÷ √pairs, at least 1 ms resolution. */
  readonly uncertaintyMs: number;
  readonly spreadMs: number;
  readonly pairs: number;
}

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
  return offset.pairs >= MIN_PAIRS && offset.spreadMs <= MAX_SPREAD_MS;
}

/**
 * How far another computer's log is ahead of the reference log, from the shared events both wrote down:
 * the shift under which most of them coincide, then the median difference of those that do.
 */
export function logOffset(reference: readonly LogEvent[], other: readonly LogEvent[]): ClockOffset | null {
  const candidates: number[] = [];
  let ofOther = 0;
  for (const name of SHARED_EVENTS) {
    const a = reference.filter((e) => e.event === name);
    const b = other.filter((e) => e.event === name);
    if (a.length === 0) continue;
    ofOther += b.length;
    for (const y of b)
      for (const x of a) if (Math.abs(y.atMs - x.atMs) <= MAX_OFFSET_MS) candidates.push(y.atMs - x.atMs);
  }
  if (candidates.length === 0) return null;
  const shift = mode(candidates);
  const support = candidates.filter((d) => Math.abs(d - shift) <= BIN_MS);
  // Regular dithers coincide by chance under other shifts too; the true one carries most of the events.
  return support.length >= MIN_PAIRS && support.length >= 0.6 * ofOther ? offsetOf(support) : null;
}

/** Centre of the fullest window of width `BIN_MS`; among equals the one nearest to zero. */
function mode(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  let best = { count: 0, centre: 0 };
  for (let low = 0, high = 0; low < sorted.length; low++) {
    while (high < sorted.length && sorted[high]! - sorted[low]! <= BIN_MS) high++;
    const count = high - low;
    const centre = (sorted[low]! + sorted[high - 1]!) / 2;
    if (count > best.count || (count === best.count && Math.abs(centre) < Math.abs(best.centre)))
      best = { count, centre };
  }
  return best.centre;
}

/** Whole quarters of an hour, to within a few seconds: what zones differ by, and clocks do not. */
export function isZoneLike(offsetMs: number): boolean {
  const quarter = 900_000;
  return (
    Math.abs(offsetMs) >= 2 * quarter - 10_000 &&
    Math.abs(offsetMs - Math.round(offsetMs / quarter) * quarter) <= 10_000
  );
}

/**
 * Puts the reference log right where it alone is a time zone off: its own headers and another train's log and headers
 * all contradict it by the same offset. With one witness only (its own headers) nothing is shifted, because either may
 * be the wrong one.
 *
 * @param headerOffsets per train: its headers' clock minus its log's
 */
export function correctReferenceZone(
  events: readonly LogEvent[],
  referenceTrain: string,
  headerOffsets: ReadonlyMap<string, ClockOffset>,
): { events: readonly LogEvent[]; note: ClockNote | null } {
  const own = headerOffsets.get(referenceTrain);
  if (!own || !isZoneLike(own.offsetMs) || !isWellDetermined(own)) return { events, note: null };
  const reference = events.filter((e) => (e.train ?? referenceTrain) === referenceTrain);
  const witness = [...headerOffsets].find(([train, offset]) => {
    if (train === referenceTrain || Math.abs(offset.offsetMs) > CLOCK_TOLERANCE_MS) return false;
    const between = logOffset(
      reference,
      events.filter((e) => e.train === train),
    );
    return between !== null && Math.abs(between.offsetMs - own.offsetMs) <= 60_000;
  });
  if (!witness) return { events, note: null };
  return {
    events: events.map((e) =>
      (e.train ?? referenceTrain) === referenceTrain ? { ...e, atMs: e.atMs + own.offsetMs } : e,
    ),
    note: {
      train: referenceTrain,
      against: `its own headers and the log of ${witness[0]}`,
      offsetMs: -own.offsetMs,
      uncertaintyMs: own.uncertaintyMs,
      pairs: own.pairs,
      corrected: true,
    },
  };
}

/**
 * Brings every train's log to the reference clock where the offset is well determined. `shiftsMs` holds what was
 * subtracted per train, for the headers that the same computer wrote.
 */
export function alignLogs(
  events: readonly LogEvent[],
  referenceTrain: string,
): { events: LogEvent[]; notes: ClockNote[]; shiftsMs: ReadonlyMap<string, number> } {
  // Logs without a train (a guide computer's) count with the reference.
  const reference = events.filter((e) => (e.train ?? referenceTrain) === referenceTrain);
  const others = new Set(events.flatMap((e) => (e.train !== undefined && e.train !== referenceTrain ? [e.train] : [])));
  const shifts = new Map<string, number>();
  const notes: ClockNote[] = [];
  for (const train of others) {
    const offset = logOffset(
      reference,
      events.filter((e) => e.train === train),
    );
    if (!offset) continue;
    const corrected =
      isWellDetermined(offset) &&
      Math.abs(offset.offsetMs) > 3 * offset.uncertaintyMs &&
      Math.abs(offset.offsetMs) >= 500;
    notes.push({
      train,
      against: `the log of ${referenceTrain}`,
      offsetMs: offset.offsetMs,
      uncertaintyMs: offset.uncertaintyMs,
      pairs: offset.pairs,
      corrected,
    });
    if (corrected) shifts.set(train, offset.offsetMs);
  }
  const aligned =
    shifts.size === 0
      ? [...events]
      : events.map((e) => {
          const shift = e.train === undefined ? undefined : shifts.get(e.train);
          return shift === undefined ? e : { ...e, atMs: e.atMs - shift };
        });
  return { events: aligned, notes, shiftsMs: shifts };
}
