/**
 * A clock that is ahead, or a program that begins late after each dither: exposures that begin that long after the
 * mount settled fit both. The other end distinguishes them: with a clock that is ahead, shutters close after the mount
 * has moved; with one that agrees they never do.
 */
import { LATE_START_MS, partitionPoint } from '../../model/index.js';
import { gapPauses, type MountPause, type Shutter } from './cadence.js';
import type { ClockEvidence } from './likelihood.js';

/** With fewer exposures, or fewer dithers among them, a program's habit is indistinguishable from a clock offset. */
const FEW_EXPOSURES = 12;
const FEW_PAUSES = 4;
/** A shutter that closes, or opens, this much on the wrong side of the mount's log entry contradicts agreement, ms. */
const BEYOND_MS = 300;
/** This many dithers, and this fraction of them, are not exceptions: a focus run, a program that was slow once. */
const FEWEST_AGAINST = 2;
const LEAST_AGAINST = 0.25;

/** A shutter, and the earliest time its train was ready, if later than its end. */
type Closing = Shutter & { readonly notBeforeMs?: number };

/**
 * Whether a small offset may be a program's habit: it is then proposed and not applied. Events that both wrote down,
 * and the same train's other clock, are not a habit of its program; nor is anything larger than habits are.
 *
 * @param other the reference's exposures, sorted
 */
export function mayBeHabit(aheadMs: number, evidence: ClockEvidence, other: readonly Shutter[]): boolean {
  const { shutters, pauses, shared, favouredMs } = evidence;
  if (Math.abs(aheadMs) > LATE_START_MS || favouredMs.includes(aheadMs) || shared.length > 0) return false;
  if (shutters.length < FEW_EXPOSURES || pauses.length < FEW_PAUSES) return true;
  // With gaps only, a clock that is behind is equivalent to the other one being ahead: either may be the late one.
  if (aheadMs < 0 && pauses[0]?.by === 'gap') return agrees(gapPauses(shutters), other);
  return agrees(pauses, shutters);
}

/**
 * Whether a jump implied by gaps only may be a program that began later after each dither in one part of the night than
 * in the other: another target, or a restarted sequence.
 *
 * @param other the reference's exposures, sorted
 */
export function mayBeHabits(
  { beforeMs, afterMs }: { readonly beforeMs: number; readonly afterMs: number },
  evidence: ClockEvidence,
  other: readonly Shutter[],
): boolean {
  if (evidence.pauses[0]?.by !== 'gap') return false;
  return [beforeMs, afterMs].every((ms) => evidence.favouredMs.includes(ms) || mayBeHabit(ms, evidence, other));
}

/** Whether hardly anything contradicts agreement of the clocks. */
function agrees(pauses: readonly MountPause[], shutters: readonly Closing[]): boolean {
  const against = pauses.filter((pause) => contradictsAgreement(pause, shutters)).length;
  return against < Math.max(FEWEST_AGAINST, LEAST_AGAINST * pauses.length);
}

/**
 * Whether with agreeing clocks a shutter was open as the mount moved, or opened before a log reports it settled. If
 * that is known only from the other train's begin, its program may be the late one.
 */
function contradictsAgreement(pause: MountPause, shutters: readonly Closing[]): boolean {
  const next = partitionPoint(shutters, (s) => s.beginMs >= pause.moveMs);
  const [before, after] = [shutters[next - 1], shutters[next]];
  if (!before || !after) return false;
  const opensEarly = pause.resumesBy === 'log' && after.beginMs < pause.resumeMs - BEYOND_MS;
  return opensEarly || (before.notBeforeMs ?? before.endMs) > pause.moveMs + BEYOND_MS;
}
