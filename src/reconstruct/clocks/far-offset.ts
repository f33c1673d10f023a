/**
 * Offsets of far more than clocks are usually off by, which fit because the night repeats itself: focus runs that come
 * as regularly as the dithers do bring exposures to lie between dithers once more an hour or two away.
 */
import { partitionPoint, type ClockDrift } from '../../model/index.js';
import type { MountPause } from './cadence.js';
import { driftInDithers } from './drift.js';
import { PART_HABITS } from './jump.js';
import { runningSums, type ClockEvidence } from './likelihood.js';
import { steps } from './posterior.js';

/** Clocks that nobody set are nearer to each other than this. Common practice, no source. */
const FAR_MS = 900_000;
/** A shutter that closes, or opens, this much on the wrong side of the mount's word contradicts an offset, ms. */
const BEYOND_MS = 300;
/** So many dithers, and such a share of those that the train took part in, are no exceptions. */
const FEWEST_AGAINST = 2;
const LEAST_AGAINST = 0.25;
/** Of all dithers it takes part in such a share at the least. */
const LEAST_PART = 1 / 3;
/** A train that exposed within this of a dither took part in it, ms. */
const TAKING_PART_MS = 1_800_000;
/** How far about an offset its best fit is looked for, and how finely, ms. */
const NEAR_MS = 3000;
const STEP_MS = 100;

/**
 * Whether an offset is far, and what fits it may be what repeats in the night: the log of the mount contradicts it (at
 * a quarter of the dithers a shutter would have been open as it moved, or have opened before it was calm), or by it the
 * train would hardly have exposed while the mount dithered. Of the true one neither is so where a train waits.
 *
 * @param offsetMs how far the train's clock is ahead of the reference
 */
export function isFarAndDoubtful(evidence: ClockEvidence, offsetMs: number): boolean {
  if (Math.abs(offsetMs) <= FAR_MS || evidence.shared.length > 0) return false;
  const told = evidence.pauses.flatMap((pause) => contradicts(pause, evidence, offsetMs) ?? []);
  if (told.length < LEAST_PART * evidence.pauses.length) return true;
  return told.filter(Boolean).length >= Math.max(FEWEST_AGAINST, LEAST_AGAINST * told.length);
}

/** Whether a dither contradicts an offset, as no gap does; `undefined` where the train took no part in it. */
function contradicts(
  { by, moveMs, resumeMs, resumesBy }: MountPause,
  { shutters }: ClockEvidence,
  offsetMs: number,
): boolean | undefined {
  const next = partitionPoint(shutters, (s) => s.beginMs >= moveMs + offsetMs);
  const [before, after] = [shutters[next - 1], shutters[next]];
  if (!before || !after) return undefined;
  const closedMs = moveMs + offsetMs - before.endMs;
  const openedMs = after.beginMs - offsetMs - resumeMs;
  if (closedMs > TAKING_PART_MS || openedMs > TAKING_PART_MS) return undefined;
  return by === 'log' && (closedMs < -BEYOND_MS || (resumesBy === 'log' && openedMs < -BEYOND_MS));
}

/** The drift of a clock about agreement that explains the dithers no worse than a far offset does. */
export function driftAboutAgreement(evidence: ClockEvidence, farMs: number): ClockDrift | null {
  const offsetsMs = steps(farMs - NEAR_MS, farMs + NEAR_MS, STEP_MS);
  const raw = Math.max(...PART_HABITS.flatMap((habit) => [...(runningSums(evidence, offsetsMs, habit).at(-1) ?? [])]));
  const drifts = evidence.favouredMs.flatMap(
    (ms) => driftInDithers(evidence, { beforeMs: ms, afterMs: ms, raw }) ?? [],
  );
  return drifts[0] ?? null;
}
