/**
 * A train whose program dithers independently: its log reports dithers that are not the reference's, under whatever
 * offset fits best. With equal cycles one always fits, by chance.
 */
import { itemAt, median, robustSpread, sum, type EventName } from '../../model/index.js';
import type { ClockEvidence } from './likelihood.js';
import { nearestOf } from './shared-events.js';
import type { TrainStreams } from './streams.js';

const OF_DITHERS: readonly EventName[] = ['dither-begin', 'dither-end', 'settling-begin', 'settling-end'];
/** Fewer are not informative. */
const FEWEST = 8;
/** Two programs write down one dither with a delay that varies by less, ms: some poll the mount every few seconds. */
const ALIKE_MS = 3000;
/** Minimum fraction of dithers logged by both that coincide; those of one clock that was set may not. */
const LEAST_SHARE = 0.4;

/**
 * Whether the dithers in a train's log are its own.
 *
 * @param offsetsMs its offset, and others that may apply to a part of the night
 */
export function dithersByItself(reference: TrainStreams, own: TrainStreams, offsetsMs: readonly number[]): boolean {
  const kinds = OF_DITHERS.flatMap((name) => {
    const [referenceMs, ownMs] = [reference.sharedMs.get(name) ?? [], own.sharedMs.get(name) ?? []];
    return Math.min(referenceMs.length, ownMs.length) < FEWEST ? [] : [{ referenceMs, ownMs }];
  });
  return (
    kinds.length > 0 &&
    kinds.every(({ referenceMs, ownMs }) =>
      offsetsMs.every((offsetMs) => coinciding(referenceMs, ownMs, offsetMs) < LEAST_SHARE),
    )
  );
}

/** Fraction of a train's events that come at a constant delay after one of the reference's. */
function coinciding(referenceMs: readonly number[], ownMs: readonly number[], offsetMs: number): number {
  const [firstMs, lastMs] = [itemAt(referenceMs, 0), itemAt(referenceMs, referenceMs.length - 1)];
  const apartMs = ownMs.flatMap((ms) => {
    const atMs = ms - offsetMs;
    return atMs < firstMs || atMs > lastMs ? [] : [atMs - nearestOf(referenceMs, atMs)];
  });
  if (apartMs.length === 0) return 0;
  const usualMs = median(apartMs);
  return apartMs.filter((ms) => Math.abs(ms - usualMs) <= ALIKE_MS).length / apartMs.length;
}

/** For independent values the ratio is 2; it is lower by this many deviations in one case out of seventy. */
const INDEPENDENT_RATIO = 2;
const DEVIATIONS = 2.2;
/** An exposure that begins farther from the dither's end began for another reason, ms. */
const NEAR_MS = 30_000;
/** Less than this is the clocks' own jitter, ms. */
const STEADY_MS = 150;
/** Exceptions deviate this many times the usual spread from the other waits, and are at most this fraction of them. */
const EXCEPTIONAL = 5;
const MOST_EXCEPTIONS = 0.2;

/**
 * Whether the interval between a dither's end and a train's resumption accumulates from dither to dither: for a train
 * that waits for the mount it starts afresh with each, while one that merely has an equal cycle never makes up for a
 * delay. Tested with J. von Neumann's ratio of successive differences to variance (Ann. Math. Stat. 12, 367, 1941),
 * after removing a trend.
 *
 * @param offsetAt how far the train's clock is ahead at an instant of the reference, ms
 */
export function wandersAgainst({ shutters, pauses }: ClockEvidence, offsetAt: (atMs: number) => number): boolean {
  const begins = shutters.map(({ beginMs }) => beginMs);
  const points = withoutExceptions(
    pauses.flatMap(({ resumeMs }) => {
      const byOwnMs = resumeMs + offsetAt(resumeMs);
      const afterMs = nearestOf(begins, byOwnMs) - byOwnMs;
      return Math.abs(afterMs) < NEAR_MS ? [{ atMs: resumeMs, afterMs }] : [];
    }),
  );
  if (points.length < FEWEST) return false;
  const left = residuals(points);
  const squares = sum(left.map((x) => x * x));
  if (Math.sqrt(squares / left.length) < STEADY_MS) return false;
  const successive = sum(left.slice(1).map((x, i) => (x - itemAt(left, i)) ** 2));
  const n = left.length;
  const deviation = Math.sqrt((4 * (n - 2)) / (n * n - 1));
  return successive / squares < INDEPENDENT_RATIO - DEVIATIONS * deviation;
}

/** The interval between a dither's end, at an instant of the reference, and a train's resumption, ms. */
interface Wait {
  readonly atMs: number;
  readonly afterMs: number;
}

/**
 * The waits without a few outliers: a first frame, or one after a focus run, begins late for its own reason. At the
 * night's edge a single one halves the ratio.
 */
function withoutExceptions(points: readonly Wait[]): readonly Wait[] {
  if (points.length < FEWEST) return points;
  const left = residuals(points);
  const usualMs = median(left);
  const mostMs = Math.max(STEADY_MS, EXCEPTIONAL * robustSpread(left));
  const usual = points.filter((_, i) => Math.abs(itemAt(left, i) - usualMs) <= mostMs);
  return points.length - usual.length <= MOST_EXCEPTIONS * points.length ? usual : points;
}

/** Residuals of values over time after subtracting their straight line. */
function residuals(points: readonly Wait[]): number[] {
  const n = points.length;
  const atMs = sum(points.map((p) => p.atMs)) / n;
  const afterMs = sum(points.map((p) => p.afterMs)) / n;
  const slope =
    sum(points.map((p) => (p.atMs - atMs) * (p.afterMs - afterMs))) / sum(points.map((p) => (p.atMs - atMs) ** 2));
  return points.map((p) => p.afterMs - afterMs - slope * (p.atMs - atMs));
}
