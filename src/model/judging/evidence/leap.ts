/**
 * How far a dither moved the star, from the guiding samples around it.
 *
 * The guiding target jumps, and the error shows the jump until the mount has followed. A sample comes late, when part
 * of the error is gone. Later samples show the rate of decay, A·exp(−t/τ), and the log shows when the move began, so
 * the jump is extrapolated back to its beginning. Derived, no table.
 */
import { itemAt, partitionPoint } from '../../collections.js';
import type { GuidingSeries } from '../../guiding.js';
import type { Interval } from '../../interval.js';
import { mean, median } from '../../statistics.js';

/**
 * Number of samples before a motion whose median is the star's position, number of samples for the jitter, and their
 * maximum age, ms.
 */
const BEFORE = 7;
const JITTER_SAMPLES = 25;
const RECENT_MS = 120_000;
/**
 * A motion's excursion must exceed the jitter (both axes) by this factor to be detected in the samples: a sample does
 * so by chance once in 8,000 (Rayleigh: exp(−9)).
 */
const STANDS_OUT = 3;
/** Error of the star's position, a median, in units of one sample's jitter (1.2533/√n). */
const STOOD_ERROR = 1.2533 / Math.sqrt(BEFORE);
/** Decay times to 1/e that are tried, in units of the sample spacing. */
const DECAYS = [0.25, 0.5, 0.75, 1, 1.5, 2, 3, 5, 10, 30];
/** Decay faster than from one sample to the next is unknown: nothing is extrapolated by more than this. */
const FASTEST_CARRIED = 1;

/** The star's displacement, arcseconds. */
export interface Leap {
  readonly ra: number;
  readonly dec: number;
  /** One standard error of its length. */
  readonly error: number;
  /** Whether it exceeds the jitter. */
  readonly isSeen: boolean;
}

/** The jump of one motion of the mount; `null` if samples do not cover it. */
export function leapOf(series: GuidingSeries, span: Interval): Leap | null {
  const { atMs, raArcsec, decArcsec } = series;
  const begin = partitionPoint(atMs, (t) => t >= span.startMs);
  const end = partitionPoint(atMs, (t) => t >= span.endMs);
  if (begin < BEFORE || end - begin < 2 || span.startMs - (atMs[begin - BEFORE] ?? -Infinity) > RECENT_MS) return null;
  const ra = excursion(raArcsec, begin, end);
  const dec = excursion(decArcsec, begin, end);
  const times = [...atMs.subarray(begin, end)];
  const lengths = ra.map((x, i) => Math.hypot(x, itemAt(dec, i)));
  const peak = lengths.indexOf(Math.max(...lengths));
  // A sample without a number leaves nothing to compare.
  if (peak < 0) return null;
  const peakMs = itemAt(times, peak);
  const everyMs = (itemAt(times, times.length - 1) - itemAt(times, 0)) / (times.length - 1);
  const jitter = Math.hypot(spreadBefore(raArcsec, begin), spreadBefore(decArcsec, begin));
  const fit = decayFrom(
    times.slice(peak).map((t) => (t - peakMs) / everyMs),
    ra.slice(peak),
    dec.slice(peak),
  );
  // The jump comes after the sample before the farthest, and not before the logged move.
  const sinceLeap = (peakMs - Math.max(span.startMs, times[peak - 1] ?? -Infinity)) / everyMs;
  const carried = Math.exp(sinceLeap / Math.max(fit.decay, FASTEST_CARRIED));
  const error = jitter * Math.hypot(fit.error, STOOD_ERROR);
  return {
    // The error is the negative of the star's displacement.
    ra: -fit.ra * carried,
    dec: -fit.dec * carried,
    error: error * carried,
    isSeen: Math.hypot(fit.ra, fit.dec) > STANDS_OUT * error,
  };
}

/** Errors from the star's previous position, arcseconds. */
function excursion(column: Float64Array, begin: number, end: number): number[] {
  const stood = median([...column.subarray(begin - BEFORE, begin)]);
  return [...column.subarray(begin, end)].map((value) => value - stood);
}

/** Root mean square about the mean. */
function spreadBefore(column: Float64Array, begin: number): number {
  const values = [...column.subarray(Math.max(0, begin - JITTER_SAMPLES), begin)];
  const middle = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - middle) ** 2)));
}

interface Decay {
  /** At the first time. */
  readonly ra: number;
  readonly dec: number;
  /** Time to 1/e. */
  readonly decay: number;
  /** Of the initial position, in units of one sample's jitter. */
  readonly error: number;
}

/** The decay that fits the errors of both axes best: the initial position by least squares, the time from the table. */
function decayFrom(times: readonly number[], ra: readonly number[], dec: readonly number[]): Decay {
  const fits = DECAYS.map((decay) => {
    const weights = times.map((t) => Math.exp(-t / decay));
    const sum2 = weights.reduce((sum, w) => sum + w * w, 0);
    const along = (values: readonly number[]): number =>
      weights.reduce((sum, w, i) => sum + w * itemAt(values, i), 0) / sum2;
    const [x, y] = [along(ra), along(dec)];
    const rest = weights.reduce((sum, w, i) => sum + (itemAt(ra, i) - w * x) ** 2 + (itemAt(dec, i) - w * y) ** 2, 0);
    return { ra: x, dec: y, decay, error: 1 / Math.sqrt(sum2), rest };
  });
  return fits.reduce((best, fit) => (fit.rest < best.rest ? fit : best));
}
