/**
 * A train whose program dithers by itself: its log tells of dithers that are none of the reference's, under whatever
 * offset fits best. With equal cycles one fits always, by chance.
 */
import { itemAt, median, robustSpread, sum, type EventName } from '../../model/index.js';
import type { ClockEvidence } from './likelihood.js';
import { nearestOf } from './shared-events.js';
import type { TrainStreams } from './streams.js';

const OF_DITHERS: readonly EventName[] = ['dither-begin', 'dither-end', 'settling-begin', 'settling-end'];
/** Fewer tell nothing. */
const FEWEST = 8;
/** Two programs write down one dither with a delay that differs by less, ms: some ask the mount every few seconds. */
const ALIKE_MS = 3000;
/** Of dithers that both wrote down so many coincide at least; those of one clock that was set may not. */
const LEAST_SHARE = 0.4;

/**
 * Whether the dithers that a train's log tells are its own.
 *
 * @param offsetsMs that by which it is ahead, and others by which it may have been for a part of the night
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

/** The share of a train's events, while the reference had its own, that come at one time after one of these. */
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

/** What is independent from one dither to the next has a ratio of 2, and one in seventy so many deviations less. */
const INDEPENDENT_RATIO = 2;
const DEVIATIONS = 2.2;
/** An exposure that begins farther from the dither's end began for something else, ms. */
const NEAR_MS = 30_000;
/** Less than this is the clocks' own unsteadiness, ms. */
const STEADY_MS = 150;
/** Exceptions lie so many times the usual spread from the other waits, and are no more than this share of them. */
const EXCEPTIONAL = 5;
const MOST_EXCEPTIONS = 0.2;

/**
 * Whether what lies between a dither's end and a train's going on adds up from dither to dither: of a train that waits
 * for the mount it begins anew with each, of one that only has an equal cycle no delay is ever made up for. Asked by
 * J. von Neumann's ratio of successive differences to variance (Ann. Math. Stat. 12, 367, 1941), a trend taken out.
 *
 * @param offsetAt by how much the train's clock is ahead at an instant of the reference, ms
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

/** What lies between a dither's end, at an instant of the reference, and a train's going on, ms. */
interface Wait {
  readonly atMs: number;
  readonly afterMs: number;
}

/**
 * The waits without a few that stand out: a first frame, or one after a focus run, begins late for its own reason. At
 * the night's edge one such alone halves the ratio.
 */
function withoutExceptions(points: readonly Wait[]): readonly Wait[] {
  if (points.length < FEWEST) return points;
  const left = residuals(points);
  const usualMs = median(left);
  const mostMs = Math.max(STEADY_MS, EXCEPTIONAL * robustSpread(left));
  const usual = points.filter((_, i) => Math.abs(itemAt(left, i) - usualMs) <= mostMs);
  return points.length - usual.length <= MOST_EXCEPTIONS * points.length ? usual : points;
}

/** What is left of values over time after their straight line. */
function residuals(points: readonly Wait[]): number[] {
  const n = points.length;
  const atMs = sum(points.map((p) => p.atMs)) / n;
  const afterMs = sum(points.map((p) => p.afterMs)) / n;
  const slope =
    sum(points.map((p) => (p.atMs - atMs) * (p.afterMs - afterMs))) / sum(points.map((p) => (p.atMs - atMs) ** 2));
  return points.map((p) => p.afterMs - afterMs - slope * (p.atMs - atMs));
}
