/**
 * How far a train's times may be from the mount's without anything showing it. A verdict that rests on less is a matter
 * of clocks, and not of the mount.
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

/** An offset known to less than this leaves jumps of seconds unseen, ms. */
const SHARP_MS = 600;
/**
 * A clock set while the night runs shows by dithers on both sides of the instant: with fewer on one of them, a jump
 * this long stays unseen, ms (tests/account/clock-leeway.test.ts).
 */
const WITNESSES = 2;
const UNSEEN_JUMP_MS = 5000;
/** A train without an exposure for so long before or after a dither says nothing by it, ms. */
const TAKING_PART_MS = 1_800_000;

/** What one train's clock leaves open against the mount's, ms. */
export interface ClockLeeway {
  /** All night. */
  readonly steadyMs: number;
  /** About a span, where few dithers tell whether the clock was set. */
  aboutMs(span: Interval): number;
}

const NONE: ClockLeeway = { steadyMs: NO_LEEWAY.ms, aboutMs: () => NO_LEEWAY.ms };

/**
 * The leeway of a train. None where one computer writes of mount and shutter, where the rig file settles its clock, and
 * where nothing is known of it: the first screen then says that what fell on whose open shutter is uncertain.
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
