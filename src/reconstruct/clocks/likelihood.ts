/**
 * How well an offset explains a companion's behaviour: log-likelihood ratio against the hypothesis that it ignored the
 * mount. Under the true offset the companion has no shutter open while the mount moves or settles, begins soon after,
 * and was ready before; under a false one its exposures are independent of the mount.
 *
 * Derived here; the shapes (an exponential delay after settling, a fraction of exceptions) are common practice, no
 * source.
 */
import { numbersOf, partitionPoint } from '../../model/index.js';
import type { MountPause, ReadyShutter } from './cadence.js';
import { chanceOf } from './by-chance.js';
import { density } from './density.js';
import { readinessWeight } from './locked-waits.js';
import { isSharedAt, withShared, type SharedEvents } from './shared-events.js';

/** One companion's evidence relative to the reference. */
export interface ClockEvidence {
  /** Sorted by begin, each with its readiness. */
  readonly shutters: readonly ReadyShutter[];
  readonly pauses: readonly MountPause[];
  readonly shared: readonly SharedEvents[];
  readonly cadenceMs: number;
  /** Offsets likely a priori, ms: 0, and the one at which the same train's other clock agrees with the reference. */
  readonly favouredMs: readonly number[];
}

/** One possible behaviour of a companion: how often it follows the mount, and how soon it begins afterwards, ms. */
export interface Habit {
  readonly keeping: number;
  readonly delayMs: number;
}

/** Habits marginalised over, all equally probable a priori. */
export const HABITS: readonly Habit[] = [0.97, 0.7].flatMap((keeping) =>
  [100, 400, 2000, 6000].map((delayMs) => ({ keeping, delayMs })),
);

/** Differences between two logs' times of one instant, ms. */
const JITTER_MS = 150;
/** Fraction of begins that also wait for something else (a filter, a focus run). */
const OTHER_WAIT_SHARE = 0.2;
const FILTER_WAIT_MS = 10_000;
const OTHER_WAIT_MS = 300_000;
/** Fraction of companions that wait for the pilot's refocus as well. */
const WAITS_FOR_WORK = 0.7;
/** Fraction of pauses that wait for this train, and how soon the mount then moves, ms. */
const HOLDER_SHARE = 0.4;
const HOLDER_DELAY_MS = 700;
/** Likelihood of an open shutter in spite of the mount, relative to a companion that ignores it. */
const EXCEPTION = 0.02;
/** Bounds are taken larger by this than they are, so that no rounding makes one smaller than what it bounds. */
const SURELY = 1.000001;
/** A train that exposed within this of a pause took part in it, ms. */
const TAKING_PART_MS = 1_800_000;
/**
 * Log-likelihood ratios of offsets over the first pauses: of none, of one, of two… All pauses count in the last.
 *
 * @param offsetsMs how far the companion's clock is ahead of the reference
 */
export function runningSums(evidence: ClockEvidence, offsetsMs: readonly number[], habit: Habit): Float64Array[] {
  const add = pauseAdder(evidence, offsetsMs, [habit]);
  let row = new Float64Array(offsetsMs.length);
  const rows = [row];
  for (const pause of evidence.pauses) {
    row = row.slice();
    add(pause, [row]);
    rows.push(row);
  }
  return rows;
}

/** Log-likelihood ratios of offsets from all the evidence, for each habit. */
export function logLikelihoods(
  evidence: ClockEvidence,
  offsetsMs: readonly number[],
  habits: readonly Habit[],
): readonly Float64Array[] {
  const add = pauseAdder(evidence, offsetsMs, habits);
  const sums = habits.map(() => new Float64Array(offsetsMs.length));
  for (const pause of evidence.pauses) add(pause, sums);
  return withShared(evidence.shared, offsetsMs, sums);
}

type AddPause = (pause: MountPause, sums: readonly Float64Array[]) => void;

/**
 * Adds one pause's contribution to the log-likelihood ratio of each offset, for each habit: thousands of offsets are
 * evaluated, so the shutters are kept as adjacent numbers that are traversed as the offsets grow. All numbers are in
 * arrays of one type: with several types the engine would optimise this again for each.
 */
function pauseAdder(evidence: ClockEvidence, offsets: readonly number[], habits: readonly Habit[]): AddPause {
  const { shutters, cadenceMs } = evidence;
  const byChance = chanceOf(evidence);
  const weight = readinessWeight(evidence);
  const beginMs = numbersOf(shutters, (s) => s.beginMs);
  const endMs = numbersOf(shutters, (s) => s.endMs);
  const readyMs = numbersOf(shutters, (s) => s.readyMs);
  const workMs = numbersOf(shutters, (s) => s.workMs ?? s.beginMs);
  const ways = habits.map(({ keeping, delayMs }) => ({ keeping, delayMs, exception: logOf(0, keeping) }));
  // Several habits share a delay: its contribution is computed once for all of them.
  const delaysMs = Float64Array.from(new Set(habits.map(({ delayMs }) => delayMs)));
  const delayOf = ways.map(({ delayMs }) => delaysMs.indexOf(delayMs));
  const ratios = new Float64Array(delaysMs.length);
  const offsetsMs = Float64Array.from(offsets);
  const growTo = ascents(offsetsMs);
  return ({ moveMs, resumeMs, by, resumesBy, laterMs }, sums) => {
    const earlyMs = delaysMs.map((delayMs) => (resumesBy === 'begin' ? delayMs : JITTER_MS));
    const mostOwn = Math.max(...delaysMs.map((delayMs, d) => 1 / (delayMs + earlyMs[d]!)));
    const mostEarlyMs = Math.max(...earlyMs);
    const mostReady = mostReadiness(by, cadenceMs);
    let next = 0;
    for (let k = 0; k < offsetsMs.length; k++) {
      const offsetMs = offsetsMs[k]!;
      while (next < beginMs.length && beginMs[next]! < moveMs + offsetMs) next++;
      while (next > 0 && beginMs[next - 1]! >= moveMs + offsetMs) next--;
      if (next === 0 || next === beginMs.length) continue;
      const sinceMs = moveMs - (endMs[next - 1]! - offsetMs);
      // A train that refocuses once the mount has settled resumed immediately, however far away its next exposure is.
      const workedMs = workMs[next]! - offsetMs - resumeMs;
      const delayMs = workedMs >= -JITTER_MS ? workedMs : beginMs[next]! - offsetMs - resumeMs;
      if (sinceMs > TAKING_PART_MS || delayMs > TAKING_PART_MS) continue;
      // An open shutter gives no further information about the next opening: this is so under most offsets.
      if (sinceMs < -JITTER_MS) {
        const [closedMs, afterMs] = [endMs[next - 1]!, beginMs[next]!];
        let end = k + 1;
        if (end < growTo[k]! && afterMs - offsetsMs[end]! - resumeMs <= TAKING_PART_MS)
          for (let beyond = growTo[k]!; end < beyond; ) {
            const middle = (end + beyond) >>> 1;
            const ms = offsetsMs[middle]!;
            if (moveMs + ms <= afterMs && moveMs - (closedMs - ms) < -JITTER_MS) end = middle + 1;
            else beyond = middle;
          }
        addExceptions(sums, ways, k, end);
        k = end - 1;
        continue;
      }
      const other = OTHER_WAIT_SHARE * otherWait(delayMs, resumesBy);
      // The densities are those of a companion that ignores the mount, times these ratios. What they are at most needs
      // one exponential; most begins in the gaps of a false offset are long before the mount had settled.
      const soon = delayMs < 0 && laterMs === undefined ? mostOwn * Math.exp(delayMs / mostEarlyMs) : mostOwn;
      // A gap of the reference may be anything: only logged dithers say how long a train must have been closed.
      const perMs = by === 'gap' ? cadenceMs : byChance(beginMs[next]! - offsetMs - moveMs);
      const most = SURELY * perMs * ((1 - OTHER_WAIT_SHARE) * soon + other);
      if (most * mostReady <= EXCEPTION) {
        addExceptions(sums, ways, k, k + 1);
        continue;
      }
      const ready = readinessRatio(by, moveMs - (readyMs[next - 1]! - offsetMs), cadenceMs);
      const readiness = weight === 1 ? ready : ready ** weight;
      if (most * readiness <= EXCEPTION) {
        addExceptions(sums, ways, k, k + 1);
        continue;
      }
      for (let d = 0; d < ratios.length; d++) {
        const own = Math.max(
          density(delayMs, delaysMs[d]!, earlyMs[d]!),
          laterMs === undefined
            ? 0
            : WAITS_FOR_WORK * density(beginMs[next]! - offsetMs - laterMs, delaysMs[d]!, delaysMs[d]!),
        );
        ratios[d] = perMs * ((1 - OTHER_WAIT_SHARE) * own + other) * readiness;
      }
      for (let h = 0; h < ways.length; h++) {
        const way = ways[h]!;
        const ratio = ratios[delayOf[h]!]!;
        sums[h]![k]! += ratio <= EXCEPTION ? way.exception : logOf(ratio, way.keeping);
      }
    }
  };
}

/** Of each offset, the place beyond the last of those that grow from it on. */
function ascents(offsetsMs: Float64Array): Int32Array {
  const beyond = new Int32Array(offsetsMs.length).fill(offsetsMs.length);
  for (let k = offsetsMs.length - 2; k >= 0; k--)
    beyond[k] = offsetsMs[k + 1]! > offsetsMs[k]! ? beyond[k + 1]! : k + 1;
  return beyond;
}

/**
 * Adds to the sums of each habit, for a range of offsets, the contribution of a shutter that is open in spite of the
 * mount.
 */
function addExceptions(
  sums: readonly Float64Array[],
  ways: readonly { readonly exception: number }[],
  from: number,
  to: number,
): void {
  for (let h = 0; h < ways.length; h++) {
    const sum = sums[h]!;
    const { exception } = ways[h]!;
    for (let k = from; k < to; k++) sum[k]! += exception;
  }
}

function logOf(ratio: number, keeping: number): number {
  return Math.log(keeping * Math.max(ratio, EXCEPTION) + (1 - keeping));
}

/** How much more common a readiness is for a train that waits for the mount, if its log would report it. */
function readinessRatio(by: MountPause['by'], waitMs: number, cadenceMs: number): number {
  if (by === 'gap') return 1;
  return (
    cadenceMs * HOLDER_SHARE * density(waitMs, HOLDER_DELAY_MS, JITTER_MS) + (waitMs >= 0 ? (1 - HOLDER_SHARE) / 2 : 0)
  );
}

/** What {@link readinessRatio} is at most, weighed or not. */
function mostReadiness(by: MountPause['by'], cadenceMs: number): number {
  if (by === 'gap') return 1;
  return Math.max(1, (cadenceMs * HOLDER_SHARE) / (HOLDER_DELAY_MS + JITTER_MS) + (1 - HOLDER_SHARE) / 2);
}

/**
 * Density of a begin that waited for a filter, or for something longer; on either side if only the reference's own
 * begin is known.
 */
function otherWait(delayMs: number, resumesBy: MountPause['resumesBy']): number {
  if (resumesBy === 'log' && delayMs < 0) return 0;
  const sides = resumesBy === 'begin' ? 2 : 1;
  const within = (ms: number): number => (Math.abs(delayMs) < ms ? 1 / (sides * ms) : 0);
  return (within(FILTER_WAIT_MS) + within(OTHER_WAIT_MS)) / 2;
}

/**
 * The range of offsets that nothing contradicts, around one that fits: no begin before the mount had settled, no
 * readiness after it moved. Relative to the offset, ms: `[below, above]`, each at most `widestMs`. If the mount is
 * known only from the other train's begins, it is unknown which of two programs begins later than necessary: nothing is
 * contradicted.
 */
export function leeway(evidence: ClockEvidence, offsetMs: number, widestMs: number): { below: number; above: number } {
  let below = widestMs;
  let above = widestMs;
  for (const pause of evidence.pauses) {
    if (pause.by === 'gap') continue;
    const next = partitionPoint(evidence.shutters, (s) => s.beginMs >= pause.moveMs + offsetMs);
    const before = evidence.shutters[next - 1];
    const after = evidence.shutters[next];
    if (!before || !after) continue;
    const delayMs = after.beginMs - offsetMs - pause.resumeMs;
    if (pause.resumesBy === 'log' && delayMs > -2 * JITTER_MS) above = Math.min(above, Math.max(0, delayMs));
    const waitMs = pause.moveMs - (before.notBeforeMs - offsetMs);
    if (waitMs > -2 * JITTER_MS) below = Math.min(below, Math.max(0, waitMs));
  }
  return isSharedAt(evidence.shared, offsetMs) ? { below: 0, above: 0 } : { below, above };
}
