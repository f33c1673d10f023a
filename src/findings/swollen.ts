/** What frames with swollen stars cost for point sources, and how much timely refocusing would have recovered. */
import {
  counted,
  duration,
  durationMs,
  extended,
  intersect,
  median,
  midpointMs,
  percent,
  sum,
  type NightFacts,
} from '../model/index.js';
import type { FindingDraft } from './finding.js';
import { exposures } from './trains.js';
import { theilSen } from './robust-line.js';
import type { SizedFrame } from './star-size.js';

/** A frame and the growth of its stars, as a fraction. */
export interface Swollen extends SizedFrame {
  readonly growth: number;
}

/** Duration of a refocus if the night has none, ms. Common practice, no source. */
const USUAL_FOCUS_MS = 120_000;
/** Number of frames that represent an end of an interval. */
export const FEW_FRAMES = 3;
/** Maximum number of neighbours on either side for smoothing a frame's growth. */
export const SMOOTHED = 5;
/** The line through the first frames covers half of the interval, and at most this many: growth is not linear. */
const MOST_LINED = 40;

/** Initial sizes, as measured and scaled to the zenith, px. */
export interface BaseSize {
  readonly size: number;
  readonly zenith: number;
}

/** The initial size: from a robust line through more than the first frames, since three alone may be off by chance. */
export function baseOf(sized: readonly SizedFrame[]): BaseSize {
  const few = sized.slice(0, FEW_FRAMES);
  const lined = sized.slice(0, Math.max(2 * FEW_FRAMES, Math.min(MOST_LINED, Math.ceil(sized.length / 2))));
  const middleMs = median(few.map((s) => midpointMs(s.frame.exposure)));
  const at = (of: (s: SizedFrame) => number): number => {
    const line = theilSen(lined.map((s) => ({ x: (midpointMs(s.frame.exposure) - middleMs) / 3_600_000, y: of(s) })));
    return line === null || lined.length <= 2 * FEW_FRAMES ? median(few.map(of)) : line.intercept;
  };
  return { size: at((s) => s.size), zenith: at((s) => s.zenith) };
}

/** How much larger one base is than another, as a fraction, by the smaller of the two measures. */
export function startGrowth(base: BaseSize, before: BaseSize): number {
  return Math.min(before.size / base.size, before.zenith / base.zenith) - 1;
}

/** By the smaller of the two measures: seeing is part of the size, but not all of it. */
export function grownFrom({ size, zenith }: BaseSize, frame: SizedFrame): Swollen {
  return extended(frame, { growth: Math.min(frame.size / size, frame.zenith / zenith) - 1 });
}

/** The value of a frame for point sources relative to one with small stars, by the square of their size. */
const worth = (growth: number): number => 1 / (1 + growth) ** 2;

/** What the night kept of a frame for point sources: nothing if it is doubtful or lost because of its star size. */
const leftOf = ({ frame, growth }: Swollen): number => (frame.verdict === 'kept' ? worth(growth) : 0);

/** Cost of swollen frames for point sources, ms. */
export function swollenCostMs(swollen: readonly Swollen[]): number {
  return sum(swollen.map((one) => durationMs(one.frame.exposure) * (1 - leftOf(one))));
}

/** How the cost was counted, in words. */
export function costEvidence(swollen: readonly Swollen[]): string {
  const notKept = swollen.filter(({ frame }) => frame.verdict !== 'kept').length;
  const whole = notKept === 0 ? '' : `, and in full for ${counted(notKept, 'frame')} that they made doubtful or lost`;
  return `the cost is counted for point sources, by the square of the stars’ size${whole}`;
}

/** Swollen frames between two refocuses. */
export interface SwollenStretch {
  readonly swollen: readonly Swollen[];
  /** Growth at the beginning of the interval, as a fraction: beyond the limit if the train was not focused then. */
  readonly startGrowth: number;
}

/**
 * What refocusing at the limit would have recovered: once at the start if the train was not focused then, and each time
 * its stars had grown by the limit, minus the time of the refocuses.
 *
 * @param limit growth at which a refocus is due
 */
export function refocusWin(
  night: NightFacts,
  train: string,
  all: readonly SwollenStretch[],
  limit: number,
): { readonly winMs: number; readonly refocuses: number; readonly spentMs: number } {
  const stretches = all.filter(({ swollen }) => swollen.length > 0);
  const savedMs = sum(
    stretches.flatMap(({ swollen, startGrowth }) =>
      swollen.map((one, i) => {
        // If nothing grew since the start, it is negative as often as positive.
        const own = smoothed(swollen, i) - dueAtStart(startGrowth, limit);
        return durationMs(one.frame.exposure) * (worth(own % limit) - leftOf(one));
      }),
    ),
  );
  const atStart = stretches.filter((s) => dueAtStart(s.startGrowth, limit) > 0).length;
  const later = sum(
    stretches.map(({ swollen, startGrowth }) => {
      // The average of the last few frames: a single one may be off by chance.
      const most = median(swollen.slice(-FEW_FRAMES).map((s) => s.growth));
      return Math.max(0, Math.floor((most - dueAtStart(startGrowth, limit)) / limit));
    }),
  );
  const each = focusMs(night, train);
  // Nobody waits for the one at the start.
  const spentMs = atStart * each.ownMs + later * each.allMs;
  // Noise in the sizes must not recover more than was lost.
  const mostMs = swollenCostMs(stretches.flatMap(({ swollen }) => swollen));
  return { winMs: Math.round(Math.max(0, Math.min(savedMs, mostMs) - spentMs)), refocuses: atStart + later, spentMs };
}

/** How the recoverable time was counted, in words. */
export function winEvidence({ refocuses, spentMs }: ReturnType<typeof refocusWin>, limit: number): string {
  const spent =
    refocuses === 0
      ? ''
      : `, and the time of ${counted(refocuses, 'refocus', 'refocuses')}, ${duration(spentMs)} on all trains together`;
  return `recoverable: that, less growth below ${percent(limit)}, which would remain${spent}`;
}

/** Growth around a frame: the median of as many neighbours on either side. */
function smoothed(frames: readonly Swollen[], at: number): number {
  const reach = Math.min(SMOOTHED, at, frames.length - 1 - at);
  return median(frames.slice(at - reach, at + reach + 1).map((s) => s.growth));
}

/** How much a refocus at the start would have reduced. */
const dueAtStart = (startGrowth: number, limit: number): number => (startGrowth >= limit ? startGrowth : 0);

/** Time of one refocus, and train time if it pauses guiding, for which the other trains wait as well. */
export function focusMs(night: NightFacts, train: string): { readonly ownMs: number; readonly allMs: number } {
  const runs = night.timeline.activities.filter((a) => a.kind === 'focus');
  const own = runs.filter((a) => a.train === train);
  const lengths = (own.length > 0 ? own : runs).map((a) => durationMs(a.span));
  const rests = night.timeline.activities.filter((a) => a.kind === 'guiding-rest');
  const isShared = own.some((run) => rests.some((rest) => intersect(rest.span, run.span) !== null));
  const ownMs = lengths.length > 0 ? median(lengths) : USUAL_FOCUS_MS;
  return { ownMs, allMs: ownMs * (isShared ? night.gathered.trains.length : 1) };
}

/** The frames as time of their train: two findings on the same swollen stars count them once. */
export function swollenMinutes(stretches: readonly SwollenStretch[]): NonNullable<FindingDraft['minutes']> {
  return exposures(stretches.flatMap(({ swollen }) => swollen.map(({ frame }) => frame)));
}
