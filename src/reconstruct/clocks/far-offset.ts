/**
 * Offsets far beyond usual clock errors, which fit because the night is periodic: focus runs as regular as the dithers
 * make exposures fall between dithers again an hour or two away.
 */
import { partitionPoint, type ClockDrift } from '../../model/index.js';
import type { MountPause } from './cadence.js';
import { driftInDithers } from './drift.js';
import { PART_HABITS } from './jump.js';
import { runningSums, type ClockEvidence } from './likelihood.js';
import { steps } from './posterior.js';

/** Clocks that nobody set differ by less than this. Common practice, no source. */
const FAR_MS = 900_000;
/** A shutter that closes, or opens, this much on the wrong side of the mount's log entry contradicts an offset, ms. */
const BEYOND_MS = 300;
/** This many dithers, and this fraction of those that the train took part in, are not exceptions. */
const FEWEST_AGAINST = 2;
const LEAST_AGAINST = 0.25;
/** Minimum fraction of all dithers that it takes part in. */
const LEAST_PART = 1 / 3;
/** A train that exposed within this of a dither took part in it, ms. */
const TAKING_PART_MS = 1_800_000;
/** Range and step of the search for the best fit around an offset, ms. */
const NEAR_MS = 3000;
const STEP_MS = 100;

/**
 * Whether an offset is far and may fit only because the night is periodic: either the mount's log contradicts it (at a
 * quarter of the dithers a shutter would have been open as it moved, or have opened before it settled), or under it the
 * train would hardly have exposed while the mount dithered. Neither holds for the true offset if a train waits.
 *
 * @param offsetMs how far the train's clock is ahead of the reference
 */
export function isFarAndDoubtful(evidence: ClockEvidence, offsetMs: number): boolean {
  if (Math.abs(offsetMs) <= FAR_MS || evidence.shared.length > 0) return false;
  const contradictions = evidence.pauses.flatMap((pause) => contradicts(pause, evidence, offsetMs) ?? []);
  if (contradictions.length < LEAST_PART * evidence.pauses.length) return true;
  return contradictions.filter(Boolean).length >= Math.max(FEWEST_AGAINST, LEAST_AGAINST * contradictions.length);
}

/** Whether a dither contradicts an offset, as no gap does; `undefined` if the train took no part in it. */
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

/** The drift of a clock around agreement that explains the dithers no worse than a far offset does. */
export function driftAboutAgreement(evidence: ClockEvidence, farMs: number): ClockDrift | null {
  const offsetsMs = steps(farMs - NEAR_MS, farMs + NEAR_MS, STEP_MS);
  const raw = Math.max(...PART_HABITS.flatMap((habit) => [...(runningSums(evidence, offsetsMs, habit).at(-1) ?? [])]));
  const drifts = evidence.favouredMs.flatMap(
    (ms) => driftInDithers(evidence, { beforeMs: ms, afterMs: ms, raw }) ?? [],
  );
  return drifts[0] ?? null;
}
