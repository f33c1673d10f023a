/**
 * A clock that is ahead, or a program that begins late after each dither: exposures that begin so much later than the
 * mount was calm fit both. What tells them apart is the other end: by a clock that is ahead shutters close after the
 * mount has moved, by one that agrees they never do.
 */
import { LATE_START_MS, partitionPoint } from '../../model/index.js';
import { gapPauses, type MountPause, type Shutter } from './cadence.js';
import type { ClockEvidence } from './likelihood.js';

/** With fewer exposures, or fewer dithers among them, a program's habit cannot be told from a clock. */
const FEW_EXPOSURES = 12;
const FEW_PAUSES = 4;
/** A shutter that closes, or opens, this much on the wrong side of the mount's word contradicts agreement, ms. */
const BEYOND_MS = 300;
/** So many dithers, and such a share of them, are no exceptions: a focus run, a program that was slow once. */
const FEWEST_AGAINST = 2;
const LEAST_AGAINST = 0.25;

/** A shutter, and before when its train was not ready, where that is more than its end. */
type Closing = Shutter & { readonly notBeforeMs?: number };

/**
 * Whether a small offset may as well be a program's habit: it is then proposed and not applied. Events that both wrote
 * down, and the same train's other clock, are no habit of its program; nor is what is larger than any.
 *
 * @param other the reference's exposures, sorted
 */
export function mayBeHabit(aheadMs: number, evidence: ClockEvidence, other: readonly Shutter[]): boolean {
  const { shutters, pauses, shared, favouredMs } = evidence;
  if (Math.abs(aheadMs) > LATE_START_MS || favouredMs.includes(aheadMs) || shared.length > 0) return false;
  if (shutters.length < FEW_EXPOSURES || pauses.length < FEW_PAUSES) return true;
  // Where gaps are all there is, a clock that is behind is one of the other that is ahead: either may be the late one.
  if (aheadMs < 0 && pauses[0]?.by === 'gap') return agrees(gapPauses(shutters), other);
  return agrees(pauses, shutters);
}

/**
 * Whether a jump that gaps alone tell may as well be a program that began later after each dither in one part of the
 * night than in the other: another target, or a sequence begun anew.
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

/** Whether hardly anything contradicts clocks that agree. */
function agrees(pauses: readonly MountPause[], shutters: readonly Closing[]): boolean {
  const against = pauses.filter((pause) => contradictsAgreement(pause, shutters)).length;
  return against < Math.max(FEWEST_AGAINST, LEAST_AGAINST * pauses.length);
}

/**
 * Whether by clocks that agree a shutter was open as the mount moved, or opened before a log says that it was calm.
 * Where only the other train's beginning tells of that, its program may be the late one.
 */
function contradictsAgreement(pause: MountPause, shutters: readonly Closing[]): boolean {
  const next = partitionPoint(shutters, (s) => s.beginMs >= pause.moveMs);
  const [before, after] = [shutters[next - 1], shutters[next]];
  if (!before || !after) return false;
  const opensEarly = pause.resumesBy === 'log' && after.beginMs < pause.resumeMs - BEYOND_MS;
  return opensEarly || (before.notBeforeMs ?? before.endMs) > pause.moveMs + BEYOND_MS;
}
