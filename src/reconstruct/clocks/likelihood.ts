/**
 * How well an offset explains what a companion did: log-likelihood against the hypothesis that it knew nothing of the
 * mount. Under the true offset the companion has no shutter open while the mount moves or settles, begins soon after,
 * and was ready before; under a false one its exposures lie anywhere.
 *
 * Derived here; the shapes (an exponential delay after settling, a share of exceptions) are common practice, no source.
 */
import { median, partitionPoint } from '../../model/index.js';
import type { MountPause, ReadyShutter } from './cadence.js';
import { readinessWeight } from './locked-waits.js';

/** An event that both computers wrote down, by the reference's clock and by the other's. */
export interface SharedEvents {
  readonly referenceMs: readonly number[];
  readonly otherMs: readonly number[];
}

/** One companion's evidence against the reference. */
export interface ClockEvidence {
  /** Sorted by begin, each with its readiness. */
  readonly shutters: readonly ReadyShutter[];
  readonly pauses: readonly MountPause[];
  readonly shared: readonly SharedEvents[];
  readonly cadenceMs: number;
  /** Offsets likely beforehand, ms: 0, and the one at which the same train's other clock agrees with the reference. */
  readonly favouredMs: readonly number[];
}

/** One way a companion may behave: how often it keeps to the mount, and how soon it begins after it, ms. */
export interface Habit {
  readonly keeping: number;
  readonly delayMs: number;
}

/** Habits summed over, all alike probable beforehand. */
export const HABITS: readonly Habit[] = [0.97, 0.7].flatMap((keeping) =>
  [100, 400, 2000, 6000].map((delayMs) => ({ keeping, delayMs })),
);

/** How far two logs' words for one instant differ, ms. */
const JITTER_MS = 150;
/** Beginnings that wait for something else too (a filter, a focus run). */
const OTHER_WAIT_SHARE = 0.2;
const FILTER_WAIT_MS = 10_000;
const OTHER_WAIT_MS = 300_000;
/** Pauses for which this train is the one waited for, and how soon the mount then moves, ms. */
const HOLDER_SHARE = 0.4;
const HOLDER_DELAY_MS = 700;
/** A shutter open in spite of all, against one that knows nothing. */
const EXCEPTION = 0.02;
/** A train that had exposed within this of a pause took part in it, ms. */
const TAKING_PART_MS = 1_800_000;
/** Events both wrote down: how often the other computer has one, the span in which chance would put one, ms. */
const SHARED_SHARE = 0.8;
const CHANCE_SPAN_MS = 600_000;
const SHARED_JITTER_MS = 400;

/**
 * Log-likelihood ratios of offsets over the first pauses: of none, of one, of two… All pauses count in the last.
 *
 * @param offsetsMs how far the companion's clock is ahead of the reference
 */
export function runningSums(evidence: ClockEvidence, offsetsMs: readonly number[], habit: Habit): Float64Array[] {
  const add = pauseAdder(evidence, [habit]);
  let row = new Float64Array(offsetsMs.length);
  const rows = [row];
  for (const pause of evidence.pauses) {
    row = row.slice();
    add(pause, offsetsMs, [row]);
    rows.push(row);
  }
  return rows;
}

/** Log-likelihood ratios of offsets by all the evidence, for each habit. */
export function logLikelihoods(
  evidence: ClockEvidence,
  offsetsMs: readonly number[],
  habits: readonly Habit[],
): Float64Array[] {
  const add = pauseAdder(evidence, habits);
  const sums = habits.map(() => new Float64Array(offsetsMs.length));
  for (const pause of evidence.pauses) add(pause, offsetsMs, sums);
  return sums.map((sum) => withShared(evidence, offsetsMs, sum));
}

/** The ratios with what the events add that both wrote down: the same under any habit. */
export function withShared({ shared }: ClockEvidence, offsetsMs: readonly number[], ofPauses: Float64Array) {
  return ofPauses.map((value, k) => shared.reduce((sum, one) => sum + ofShared(one, offsetsMs[k]!), value));
}

type AddPause = (pause: MountPause, offsetsMs: readonly number[], sums: readonly Float64Array[]) => void;

/**
 * What adds one pause's share to the log-likelihood ratio of each offset, for each habit: thousands of offsets are
 * looked at, so that the shutters are numbers side by side, and walked along as the offsets grow.
 */
function pauseAdder(evidence: ClockEvidence, habits: readonly Habit[]): AddPause {
  const { shutters, cadenceMs } = evidence;
  const weight = readinessWeight(evidence);
  const beginMs = Float64Array.from(shutters, (s) => s.beginMs);
  const endMs = Float64Array.from(shutters, (s) => s.endMs);
  const readyMs = Float64Array.from(shutters, (s) => s.readyMs);
  const ways = habits.map(({ keeping, delayMs }) => ({ keeping, delayMs, exception: logOf(0, keeping) }));
  return (pause, offsetsMs, sums) => {
    let next = 0;
    for (let k = 0; k < offsetsMs.length; k++) {
      const offsetMs = offsetsMs[k]!;
      while (next < beginMs.length && beginMs[next]! < pause.moveMs + offsetMs) next++;
      while (next > 0 && beginMs[next - 1]! >= pause.moveMs + offsetMs) next--;
      if (next === 0 || next === beginMs.length) continue;
      const sinceMs = pause.moveMs - (endMs[next - 1]! - offsetMs);
      const delayMs = beginMs[next]! - offsetMs - pause.resumeMs;
      if (sinceMs > TAKING_PART_MS || delayMs > TAKING_PART_MS) continue;
      // A shutter that was open says no more than that, whenever the next one opens: so it is under most offsets.
      if (sinceMs < -JITTER_MS) {
        for (let h = 0; h < ways.length; h++) sums[h]![k]! += ways[h]!.exception;
        continue;
      }
      const other = OTHER_WAIT_SHARE * otherWait(delayMs, pause);
      const ready = readinessRatio(pause, pause.moveMs - (readyMs[next - 1]! - offsetMs), cadenceMs);
      const readiness = weight === 1 ? ready : ready ** weight;
      for (let h = 0; h < ways.length; h++) {
        const way = ways[h]!;
        const own = density(delayMs, way.delayMs, pause.resumesBy === 'begin' ? way.delayMs : JITTER_MS);
        // The densities are those of a companion that knows nothing of the mount times these ratios.
        sums[h]![k]! += logOf(cadenceMs * ((1 - OTHER_WAIT_SHARE) * own + other) * readiness, way.keeping);
      }
    }
  };
}

function logOf(ratio: number, keeping: number): number {
  return Math.log(keeping * Math.max(ratio, EXCEPTION) + (1 - keeping));
}

/** How much more usual a readiness is for a train that waits for the mount, where its log would say so. */
function readinessRatio({ by }: MountPause, waitMs: number, cadenceMs: number): number {
  if (by === 'gap') return 1;
  return (
    cadenceMs * HOLDER_SHARE * density(waitMs, HOLDER_DELAY_MS, JITTER_MS) + (waitMs >= 0 ? (1 - HOLDER_SHARE) / 2 : 0)
  );
}

/**
 * Density of a beginning that waited for a filter, or for something longer; on either side where only the reference's
 * own beginning is known.
 */
function otherWait(delayMs: number, { resumesBy }: MountPause): number {
  if (resumesBy === 'log' && delayMs < 0) return 0;
  const sides = resumesBy === 'begin' ? 2 : 1;
  const within = (ms: number): number => (Math.abs(delayMs) < ms ? 1 / (sides * ms) : 0);
  return (within(FILTER_WAIT_MS) + within(OTHER_WAIT_MS)) / 2;
}

/** Density per ms at x of a delay: exponential after 0, falling off at once before. */
function density(x: number, scaleMs: number, earlyMs: number): number {
  return Math.exp(x >= 0 ? -x / scaleMs : x / earlyMs) / (scaleMs + earlyMs);
}

/** Farther apart two events have nothing to do with each other: the density below is lost in the rounding, ms. */
const UNSHARED_MS = 20_000;
const LOG_UNSHARED = Math.log(1 - SHARED_SHARE);

function ofShared({ referenceMs, otherMs }: SharedEvents, offsetMs: number): number {
  let sum = 0;
  for (const atMs of otherMs) {
    const distanceMs = nearestMs(referenceMs, atMs - offsetMs);
    if (distanceMs > UNSHARED_MS) {
      sum += LOG_UNSHARED;
      continue;
    }
    const ratio = CHANCE_SPAN_MS * density(distanceMs, SHARED_JITTER_MS, SHARED_JITTER_MS);
    sum += Math.log(SHARED_SHARE * ratio + (1 - SHARED_SHARE));
  }
  return sum;
}

/**
 * Median difference of the events that both wrote down and that coincide under an offset; `undefined` for fewer than
 * three.
 */
export function sharedOffset({ shared }: ClockEvidence, offsetMs: number): number | undefined {
  const differences = shared.flatMap(({ referenceMs, otherMs }) =>
    otherMs.flatMap((atMs) => {
      const nearest = nearestOf(referenceMs, atMs - offsetMs);
      return Math.abs(nearest - (atMs - offsetMs)) <= 4 * SHARED_JITTER_MS ? [atMs - nearest] : [];
    }),
  );
  return differences.length >= 3 ? median(differences) : undefined;
}

/** Distance to the nearest of sorted instants, ms. */
function nearestMs(sorted: readonly number[], atMs: number): number {
  return Math.abs(nearestOf(sorted, atMs) - atMs);
}

/** The nearest of sorted instants. */
function nearestOf(sorted: readonly number[], atMs: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? Infinity) < atMs) low = middle + 1;
    else high = middle;
  }
  const [before, after] = [sorted[low - 1] ?? -Infinity, sorted[low] ?? Infinity];
  return atMs - before < after - atMs ? before : after;
}

/**
 * The offsets that nothing contradicts, about one that fits: no beginning before the mount had settled, no readiness
 * after it moved. Relative to the offset, ms: `[below, above]`, each at most `widestMs`. Where only the other train's
 * beginnings tell of the mount, nobody says which of two programs begins later than it might: nothing is contradicted.
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
  for (const { referenceMs, otherMs } of evidence.shared)
    if (otherMs.some((atMs) => nearestMs(referenceMs, atMs - offsetMs) <= SHARED_JITTER_MS))
      return { below: 0, above: 0 };
  return { below, above };
}
