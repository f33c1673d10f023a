/**
 * What frames with swollen stars cost point sources, and what refocuses in time would have won of it.
 */
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

/** A frame and how much its stars had grown, as a share. */
export interface Swollen extends SizedFrame {
  readonly growth: number;
}

/** A refocus takes this long where the night has none to go by, ms. Common practice, no source. */
const USUAL_FOCUS_MS = 120_000;
/** Frames at an end of a stretch that stand for it. */
export const FEW_FRAMES = 3;
/** Neighbours on either side, at most, that a frame's growth is smoothed with. */
export const SMOOTHED = 5;
/** The line through the first frames goes through half of the stretch, and no more than this: growth is no line. */
const MOST_LINED = 40;

/** Sizes to grow from, as they are and brought to the zenith, px. */
export interface BaseSize {
  readonly size: number;
  readonly zenith: number;
}

/**
 * The size about the first frames: where a robust line through more of them stands, for three by themselves are off by
 * chance.
 */
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

/** How much larger one base is than another, as a share, by the smaller of the two measures. */
export function startGrowth(base: BaseSize, before: BaseSize): number {
  return Math.min(before.size / base.size, before.zenith / base.zenith) - 1;
}

/** By the smaller of the two measures: seeing is some of the size and not all. */
export function grownFrom({ size, zenith }: BaseSize, frame: SizedFrame): Swollen {
  return extended(frame, { growth: Math.min(frame.size / size, frame.zenith / zenith) - 1 });
}

/** What a frame is worth to point sources beside one with small stars, by the square of their size. */
const worth = (growth: number): number => 1 / (1 + growth) ** 2;

/** What the night left of a frame for point sources: of one that its stars' size made doubtful or lost, nothing. */
const leftOf = ({ frame, growth }: Swollen): number => (frame.verdict === 'kept' ? worth(growth) : 0);

/** What swollen frames cost point sources, ms. */
export function swollenCostMs(swollen: readonly Swollen[]): number {
  return sum(swollen.map((one) => durationMs(one.frame.exposure) * (1 - leftOf(one))));
}

/** How the cost was counted, in words. */
export function costEvidence(swollen: readonly Swollen[]): string {
  const notKept = swollen.filter(({ frame }) => frame.verdict !== 'kept').length;
  const whole = notKept === 0 ? '' : `, and whole for ${counted(notKept, 'frame')} that they made doubtful or lost`;
  return `the cost is counted for point sources, by the square of the stars’ size${whole}`;
}

/** Swollen frames between two refocuses. */
export interface SwollenStretch {
  readonly swollen: readonly Swollen[];
  /** Growth with which the stretch began, as a share: beyond the limit where the train was not focused then. */
  readonly startGrowth: number;
}

/**
 * What refocuses at the limit would have won: one at the start where the train was not focused then, and one each time
 * that its stars had grown by the limit, which takes so much off them. Less the time of the refocuses.
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
        // Below zero as often as above it, where nothing grew since the start.
        const own = smoothed(swollen, i) - dueAtStart(startGrowth, limit);
        return durationMs(one.frame.exposure) * (worth(own % limit) - leftOf(one));
      }),
    ),
  );
  const atStart = stretches.filter((s) => dueAtStart(s.startGrowth, limit) > 0).length;
  const later = sum(
    stretches.map(({ swollen, startGrowth }) => {
      // The last few frames together: one alone may be off by chance.
      const most = median(swollen.slice(-FEW_FRAMES).map((s) => s.growth));
      return Math.max(0, Math.floor((most - dueAtStart(startGrowth, limit)) / limit));
    }),
  );
  const each = focusMs(night, train);
  // Nobody waits for the one at the start.
  const spentMs = atStart * each.ownMs + later * each.allMs;
  // Noise in the sizes must not win more than was lost.
  const mostMs = swollenCostMs(stretches.flatMap(({ swollen }) => swollen));
  return { winMs: Math.round(Math.max(0, Math.min(savedMs, mostMs) - spentMs)), refocuses: atStart + later, spentMs };
}

/** How the recoverable time was counted, in words. */
export function winEvidence({ refocuses, spentMs }: ReturnType<typeof refocusWin>, limit: number): string {
  const spent =
    refocuses === 0
      ? ''
      : `, and the time of ${counted(refocuses, 'refocus', 'refocuses')}, ${duration(spentMs)} on all trains together`;
  return `recoverable: that, less growth below ${percent(limit)}, which stays${spent}`;
}

/** Growth about a frame: the median of as many neighbours on either side. */
function smoothed(frames: readonly Swollen[], at: number): number {
  const reach = Math.min(SMOOTHED, at, frames.length - 1 - at);
  return median(frames.slice(at - reach, at + reach + 1).map((s) => s.growth));
}

/** What a refocus at the start would have taken off. */
const dueAtStart = (startGrowth: number, limit: number): number => (startGrowth >= limit ? startGrowth : 0);

/** Time of one refocus, and train time where it rests the guiding, for which the other trains wait as well. */
function focusMs(night: NightFacts, train: string): { readonly ownMs: number; readonly allMs: number } {
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
