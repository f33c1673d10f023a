/**
 * The shared intervals of a night in which the mount does something other than dither: pointings, flips and holds,
 * including the restart of guiding.
 */
import {
  contains,
  durationMs,
  hull,
  interval,
  overlapMs,
  POINTING_KINDS,
  union,
  type Activity,
  type ActivityKind,
  type Interval,
  type AccountedNight,
} from '../../model/index.js';

/** Activities this close to each other form one interval, ms. */
const JOIN_MS = 60_000;
/** A guiding start this soon after a pause belongs to the pause, ms. */
const AFTER_PAUSE_MS = 10_000;

/** One such interval. */
export interface Stretch {
  readonly span: Interval;
  /** The reason that stopped the night, such as clouds; `null` for a mere pointing. */
  readonly hold: Interval | null;
  readonly motion: readonly Interval[];
  readonly guidingOff: readonly Interval[];
}

const PARTS: readonly ActivityKind[] = [...POINTING_KINDS, 'hold', 'guiding-start', 'guiding-stopped'];

/** The intervals within the lights' span, sorted; each contains a pointing or a hold. */
export function stretchesOf({ timeline: { activities }, accounts: { lights: frames } }: AccountedNight): Stretch[] {
  const lights = hull(frames.map((f) => f.exposure));
  if (!lights) return [];
  const pauses = activities.filter((a) => a.kind === 'guiding-rest' || a.kind === 'star-gap');
  const parts = activities.filter(
    (a) =>
      PARTS.includes(a.kind) &&
      (a.kind !== 'hold' || a.train === undefined) &&
      !resumesGuiding(a, pauses) &&
      a.span.endMs > lights.startMs &&
      a.span.startMs < lights.endMs,
  );
  return union(parts.map((a) => interval(a.span.startMs, a.span.endMs + JOIN_MS))).flatMap((wide): Stretch[] => {
    const own = parts.filter((a) => contains(wide, a.span.startMs));
    const isPointing = (a: Activity): boolean => (POINTING_KINDS as readonly ActivityKind[]).includes(a.kind);
    const hold = hull(own.filter((a) => a.kind === 'hold').map((a) => a.span));
    const span = hull(own.map((a) => a.span));
    if (!span || (!hold && !own.some(isPointing))) return [];
    return [
      {
        span,
        hold,
        motion: union(own.filter(isPointing).map((a) => a.span)),
        guidingOff: union(
          own.filter((a) => a.kind === 'guiding-start' || a.kind === 'guiding-stopped').map((a) => a.span),
        ),
      },
    ];
  });
}

/** Whether a start of guiding is only the settling after a pause or a lost star. */
export function resumesGuiding(activity: Activity, pauses: readonly Activity[]): boolean {
  return (
    activity.kind === 'guiding-start' &&
    pauses.some((p) => Math.abs(activity.span.startMs - p.span.endMs) <= AFTER_PAUSE_MS)
  );
}

/** Longest overlap of an exposure with motion in an interval, ms: with more, the train did not rest for it. */
export function movedUnder(exposure: Interval, { motion }: Stretch): number {
  return motion.reduce((sum, moving) => sum + overlapMs(moving, exposure), 0);
}

/** Time from the interval's begin to its end, ms. */
export function lengthMs(stretch: Stretch): number {
  return durationMs(stretch.span);
}
