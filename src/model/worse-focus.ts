/**
 * Refocuses that made the stars larger, by the frames around them: beyond the limit at which a refocus is due, and
 * beyond what single frames scatter.
 */
import type { ActivityOf } from './activity.js';
import type { Interval } from './interval.js';
import { median } from './statistics.js';

/** A frame's star size, in any one unit. */
export interface SizedExposure {
  readonly exposure: Interval;
  readonly target?: string | undefined;
  readonly filter?: string | undefined;
  readonly size: number;
  /** The same scaled to the zenith. */
  readonly zenith: number;
}

/** A refocus and the sizes on either side of it, px. */
export interface WorseFocus {
  readonly run: ActivityOf<'focus'>;
  readonly before: { readonly size: number; readonly zenith: number };
  readonly after: { readonly size: number; readonly zenith: number };
  /** Growth by the smaller of the two measures, as a fraction. */
  readonly growth: number;
  /** How much single frames scatter, px. */
  readonly scatter: number;
}

/** Number of frames on either side whose median is compared. */
const AROUND = 3;
/** Medians of three frames differ by this many times the scatter of one by chance in one of a thousand refocuses. */
const CLEAR = 3;
/** Frames farther from the refocus may be larger for another reason, ms. Common practice, no source. */
const NEAR_MS = 45 * 60_000;

/**
 * @param runs one train's refocuses, in order
 * @param sized its frames of known size, in order
 * @param least growth from which on it counts, as a fraction
 */
export function worseFocuses(
  runs: readonly ActivityOf<'focus'>[],
  sized: readonly SizedExposure[],
  least: number,
): WorseFocus[] {
  if (runs.length === 0) return [];
  const scatter = scatterOf(sized);
  return runs.flatMap((run, i): WorseFocus[] => {
    // One that was repeated at once, with no frame in between, is judged with the one before it.
    const previous = runs
      .slice(0, i)
      .findLast(({ span }) => sized.some((s) => isBetween(s.exposure, span.endMs, run.span.startMs)));
    const fromMs = Math.max(previous?.span.endMs ?? -Infinity, run.span.startMs - NEAR_MS);
    const untilMs = Math.min(runs[i + 1]?.span.startMs ?? Infinity, run.span.endMs + NEAR_MS);
    const following = sized.filter(
      ({ exposure }) => exposure.startMs >= run.span.endMs - 1000 && exposure.startMs < untilMs,
    );
    const [first] = following;
    // Through another filter, or of another field, stars are larger anyway.
    const isAlike = (s: SizedExposure): boolean => s.target === first?.target && s.filter === first?.filter;
    const after = following.filter(isAlike).slice(0, AROUND);
    const before = sized.filter((s) => isBetween(s.exposure, fromMs, run.span.startMs)).slice(-AROUND);
    if (before.length < AROUND || after.length < AROUND || !before.every(isAlike)) return [];
    const [was, is] = [middleOf(before), middleOf(after)];
    const growth = Math.min(is.size / was.size, is.zenith / was.zenith) - 1;
    return growth >= least && growth * was.size > CLEAR * scatter
      ? [{ run, before: was, after: is, growth, scatter }]
      : [];
  });
}

/** Up to a second of clock difference between log and header. */
function isBetween({ startMs, endMs }: Interval, fromMs: number, untilMs: number): boolean {
  return startMs >= fromMs - 1000 && endMs <= untilMs + 1000;
}

function middleOf(frames: readonly SizedExposure[]): { readonly size: number; readonly zenith: number } {
  return { size: median(frames.map(({ size }) => size)), zenith: median(frames.map(({ zenith }) => zenith)) };
}

/** A normal distribution's standard deviation over the median of its absolute values. */
const SIGMA_PER_MEDIAN = 1.4826;

/** Of one frame, by the steps from each to the next: they hold two scatters, and hardly any growth. */
function scatterOf(sized: readonly SizedExposure[]): number {
  const steps = sized.slice(1).map(({ size }, i) => size - (sized[i]?.size ?? size));
  return steps.length < AROUND ? 0 : (SIGMA_PER_MEDIAN * median(steps.map(Math.abs))) / Math.SQRT2;
}
