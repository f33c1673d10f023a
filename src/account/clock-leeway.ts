/**
 * The undetectable offset of a train's clock from the mount's. A verdict within it depends on clocks rather than on the
 * mount.
 */
import {
  CLOCK_COVERAGE,
  durationMs,
  NO_LEEWAY,
  overlapMs,
  type ClockNote,
  type Frame,
  type Interval,
} from '../model/index.js';

/** An offset with a larger uncertainty hides jumps of seconds, ms. */
const SHARP_MS = 600;
/**
 * A clock set during the night shows in the dithers on both sides of the instant: with fewer on one of them, a jump
 * this long remains undetected, ms (tests/account/clock-leeway.test.ts).
 */
const WITNESSES = 2;
const UNSEEN_JUMP_MS = 5000;
/** A train without an exposure this long before or after a dither gives no evidence at it, ms. */
const TAKING_PART_MS = 1_800_000;

/** The possible offset of one train's clock relative to the mount's, ms. */
export interface ClockLeeway {
  /** All night. */
  readonly steadyMs: number;
  /** Around a span, where too few dithers show whether the clock was set. */
  aboutMs(span: Interval): number;
}

const NONE: ClockLeeway = { steadyMs: NO_LEEWAY.ms, aboutMs: () => NO_LEEWAY.ms };

/**
 * The tolerance of a train. None if one computer logs mount and shutter, if the rig file determines its clock, and if
 * nothing is known about it: the first screen then says that the assignment of events to exposures is uncertain.
 *
 * @param train whose; `isOneClock` where its frames and the mount's moves are dated by one clock
 * @param pauses of the mount for dithers, with their settling, sorted by start
 * @param frames the train's, sorted by start
 */
export function leewayOf(
  train: { readonly id: string; readonly isOneClock: boolean },
  clocks: readonly ClockNote[],
  pauses: readonly Interval[],
  frames: readonly Frame[],
): ClockLeeway {
  const own = clocks.filter((c) => c.train === train.id);
  if (train.isOneClock || own.length === 0 || own.some((c) => !c.isKnown || c.by === 'the rig file')) return NONE;
  const steadyMs = CLOCK_COVERAGE * own.reduce((most, c) => Math.max(most, c.uncertaintyMs), 0);
  const clean = pauses.filter((pause) => isKept(pause, frames));
  return {
    steadyMs,
    aboutMs: ({ startMs, endMs }) => {
      const before = clean.filter((p) => p.endMs <= startMs).length;
      const after = clean.filter((p) => p.startMs >= endMs).length;
      const isWitnessed = steadyMs <= SHARP_MS && before >= WITNESSES && after >= WITNESSES;
      return isWitnessed ? steadyMs : Math.max(steadyMs, UNSEEN_JUMP_MS);
    },
  };
}

/** Whether the train kept its shutter closed while the mount paused, between exposures not long before and after. */
function isKept(pause: Interval, frames: readonly Frame[]): boolean {
  const near = { startMs: pause.startMs - TAKING_PART_MS, endMs: pause.endMs + TAKING_PART_MS };
  const own = frames.filter((f) => overlapMs(f.exposure, near) > 0 && durationMs(f.exposure) > 0);
  return (
    own.some((f) => f.exposure.endMs <= pause.startMs) &&
    own.some((f) => f.exposure.startMs >= pause.endMs) &&
    own.every((f) => overlapMs(f.exposure, pause) === 0)
  );
}
