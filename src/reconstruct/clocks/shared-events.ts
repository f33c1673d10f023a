/** Events that two computers wrote down: how well clock offsets explain them. */
import { median, robustSpread } from '../../model/index.js';
import { density } from './density.js';

/** An event that both computers wrote down, on the reference's clock and on the other's. */
export interface SharedEvents {
  readonly referenceMs: readonly number[];
  readonly otherMs: readonly number[];
}

/** Events both wrote down: how often the other computer has one, the range in which chance would place one, ms. */
const SHARED_SHARE = 0.8;
const CHANCE_SPAN_MS = 600_000;
const SHARED_JITTER_MS = 400;

/** Events farther apart are unrelated: the density below is lost in rounding, ms. */
const UNSHARED_MS = 20_000;
const LOG_UNSHARED = Math.log(1 - SHARED_SHARE);

/** The ratios of each habit plus the contribution of events that both wrote down: the same under any habit. */
export function withShared(
  shared: readonly SharedEvents[],
  offsetsMs: readonly number[],
  ofPauses: readonly Float64Array[],
): readonly Float64Array[] {
  if (shared.length === 0) return ofPauses;
  const offsets = Float64Array.from(offsetsMs);
  const added = shared.map((one) => ofShared(one, offsets));
  return ofPauses.map((ofHabit) => ofHabit.map((value, k) => added.reduce((sum, own) => sum + own[k]!, value)));
}

/** The contribution of events that both wrote down, at each offset: traversed event by event as the offsets grow. */
function ofShared({ referenceMs, otherMs }: SharedEvents, offsetsMs: Float64Array): Float64Array {
  const sums = new Float64Array(offsetsMs.length);
  const referencesMs = Float64Array.from(referenceMs);
  for (const eventMs of otherMs) {
    let next = 0;
    for (let k = 0; k < sums.length; k++) {
      const atMs = eventMs - offsetsMs[k]!;
      while (next < referencesMs.length && referencesMs[next]! < atMs) next++;
      while (next > 0 && referencesMs[next - 1]! >= atMs) next--;
      const beforeMs = next > 0 ? atMs - referencesMs[next - 1]! : Infinity;
      const afterMs = next < referencesMs.length ? referencesMs[next]! - atMs : Infinity;
      const distanceMs = Math.min(beforeMs, afterMs);
      if (distanceMs > UNSHARED_MS) {
        sums[k]! += LOG_UNSHARED;
        continue;
      }
      const ratio = CHANCE_SPAN_MS * density(distanceMs, SHARED_JITTER_MS, SHARED_JITTER_MS);
      sums[k]! += Math.log(SHARED_SHARE * ratio + (1 - SHARED_SHARE));
    }
  }
  return sums;
}

/**
 * Median difference of the events that both wrote down and that coincide under an offset; `undefined` for fewer than
 * three.
 */
export function sharedOffset(shared: readonly SharedEvents[], offsetMs: number): number | undefined {
  const differences = shared.flatMap(({ referenceMs, otherMs }) =>
    otherMs.flatMap((atMs) => {
      const nearest = nearestOf(referenceMs, atMs - offsetMs);
      return Math.abs(nearest - (atMs - offsetMs)) <= 4 * SHARED_JITTER_MS ? [atMs - nearest] : [];
    }),
  );
  return differences.length >= 3 ? median(differences) : undefined;
}

/** Instants written to the second scatter by less, ms. */
const SHARP_MS = 500;
/** Fewer differences do not determine a scatter. */
const FEWEST_DIFFERENCES = 6;

/**
 * The events that are simultaneous in both logs under an offset all night. If one program polls the mount every few
 * seconds, its entries are up to that much late, and are not accurate to the second.
 */
export function sharpEvents(shared: readonly SharedEvents[], offsetMs: number): SharedEvents[] {
  return shared.filter(({ referenceMs, otherMs }) => {
    const differences = otherMs.flatMap((atMs) => {
      const differenceMs = atMs - offsetMs - nearestOf(referenceMs, atMs - offsetMs);
      return Math.abs(differenceMs) <= UNSHARED_MS ? [differenceMs] : [];
    });
    return differences.length < FEWEST_DIFFERENCES || robustSpread(differences) <= SHARP_MS;
  });
}

/** Whether an event that both wrote down is simultaneous under an offset. */
export function isSharedAt(shared: readonly SharedEvents[], offsetMs: number): boolean {
  return shared.some(({ referenceMs, otherMs }) =>
    otherMs.some((atMs) => nearestMs(referenceMs, atMs - offsetMs) <= SHARED_JITTER_MS),
  );
}

/** Distance to the nearest of sorted instants, ms. */
function nearestMs(sorted: readonly number[], atMs: number): number {
  return Math.abs(nearestOf(sorted, atMs) - atMs);
}

/** The nearest of sorted instants. */
export function nearestOf(sorted: readonly number[], atMs: number): number {
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
