/**
 * Frames that show the light of another filter than the one they name: a wheel that stuck, or turned unintentionally.
 */
import { median, robustSpread } from '../model/statistics.js';
import { fluxRatio } from './match-stars.js';
import type { FluxFrame } from './types.js';

/** A frame of a group: one train, target, filter, exposure and camera setting. */
export interface GroupedFrame {
  readonly startMs: number;
  readonly frame: FluxFrame;
  /** Relative to the group's best third; `null` where not comparable. */
  readonly ratio: number | null;
  readonly backgroundAdu: number;
}

/** Common practice, no source: a narrow band passes a tenth of a broad band's light, or less. */
const BRIGHT = 0.7;
const FAINT = 0.3;
/** Dimming by a filter is steady, unlike a cloud: within its median, this many of ten. */
const STEADY = 0.25;
const STEADY_SHARE = 0.6;
const FRAMES_MIN = 3;
/** The sky behind is darker by this many spreads of the bright frames' levels, and by this fraction of them. */
const DARKER_SPREADS = 4;
const DARKER_SHARE = 0.02;
/** Starlight and level of two filters' frames that count as the same filter. */
const ALIKE = 1.33;
/** A wheel that sticks divides the night into few intervals. */
const CHANGES_MAX = 4;

/**
 * Which frames of a group have the light of another filter's.
 *
 * A group splits in two if some of its frames are bright and others are steadily faint in front of a darker sky, and if
 * the bright ones have the starlight and the level of the other filter. Inconclusive frames follow the nearest
 * conclusive ones in time.
 *
 * @param group in any order
 * @param other frames of another filter, otherwise comparable
 * @returns for each frame of the group whether it is one; `null` if the group is uniform
 */
export function takenThroughOther(
  group: readonly GroupedFrame[],
  other: readonly GroupedFrame[],
): readonly boolean[] | null {
  const known = comparable(group);
  const bright = known.filter(({ ratio }) => ratio >= BRIGHT);
  const others = comparable(other).filter(({ ratio }) => ratio >= BRIGHT);
  if (bright.length < FRAMES_MIN || others.length < FRAMES_MIN) return null;
  const level = levelOf(bright);
  const limit =
    level - Math.max(DARKER_SPREADS * robustSpread(bright.map((f) => f.backgroundAdu)), DARKER_SHARE * level);
  const dark = known.filter(({ ratio, backgroundAdu }) => ratio <= FAINT && backgroundAdu < limit);
  if (dark.length < FRAMES_MIN) return null;
  const usual = median(dark.map(({ ratio }) => ratio));
  const faint = dark.filter(({ ratio }) => Math.abs(ratio / usual - 1) <= STEADY);
  if (faint.length < FRAMES_MIN || faint.length < STEADY_SHARE * dark.length) return null;
  if (!isAlike(level, levelOf(others)) || !isAlike(starlight(bright, others), 1)) return null;
  const sure = [
    ...bright.map(({ startMs }) => ({ startMs, isOther: true })),
    ...faint.map(({ startMs }) => ({ startMs, isOther: false })),
  ].sort((a, b) => a.startMs - b.startMs);
  if (sure.filter(({ isOther }, i) => i > 0 && isOther !== sure[i - 1]?.isOther).length > CHANGES_MAX) return null;
  return group.map(({ startMs }) => {
    const nearest = sure.reduce((a, b) => (Math.abs(b.startMs - startMs) < Math.abs(a.startMs - startMs) ? b : a));
    return nearest.isOther;
  });
}

/** A frame whose light could be compared. */
type Comparable = GroupedFrame & { readonly ratio: number };

function comparable(group: readonly GroupedFrame[]): Comparable[] {
  return group.flatMap((one) => (one.ratio === null ? [] : [{ ...one, ratio: one.ratio }]));
}

function levelOf(frames: readonly GroupedFrame[]): number {
  return median(frames.map(({ backgroundAdu }) => backgroundAdu));
}

/** Brightness ratio of the stars of two sets of frames; NaN if they have too few in common. */
function starlight(frames: readonly Comparable[], others: readonly Comparable[]): number {
  const reference = middleOf(others);
  const ratios = frames.flatMap(({ frame, ratio }) => {
    const found = fluxRatio(frame, reference.frame);
    return found === null ? [] : [(found.ratio * reference.ratio) / ratio];
  });
  return ratios.length < FRAMES_MIN ? Number.NaN : median(ratios);
}

/** The frame with the median light. */
function middleOf(frames: readonly Comparable[]): Comparable {
  const sorted = [...frames].sort((a, b) => a.ratio - b.ratio);
  return sorted[Math.floor(sorted.length / 2)]!;
}

function isAlike(a: number, b: number): boolean {
  return a <= ALIKE * b && b <= ALIKE * a;
}
