/**
 * Compares one stream of times with the reference: the offset implied by its exposures, and whether one offset holds
 * all night.
 */
import {
  counted,
  KEEPS_TO_NONE,
  LATE_START_MS,
  NO_WITNESS,
  type ClockDrift,
  type ClockJump,
  type ClockSource,
} from '../../model/index.js';
import {
  cadenceMs,
  gapPauses,
  loggedPauses,
  withOwnWork,
  withReadiness,
  type MountPause,
  type Shutter,
} from './cadence.js';
import { isWellDetermined } from './differences.js';
import { driftInDithers, withoutDrift } from './drift.js';
import { jumpAtTheEdge } from './edge-jump.js';
import { driftAboutAgreement, isFarAndDoubtful } from './far-offset.js';
import { jumpInDithers, type JumpInDithers } from './jump.js';
import { mayBeHabit, mayBeHabits } from './late-or-ahead.js';
import type { ClockEvidence } from './likelihood.js';
import type { Compared } from './notes.js';
import {
  coarseSearch,
  estimateOffset,
  OTHER_SHARE_LIMIT,
  thin,
  type CoarseSearch,
  type OffsetEstimate,
} from './posterior.js';
import { hasRoomFor } from './room-for-jump.js';
import { dithersByItself, wandersAgainst } from './own-dithers.js';
import { sharpEvents } from './shared-events.js';
import { sharedEvents, type TrainStreams } from './streams.js';

/** What the others are compared with. */
export interface Reference {
  readonly streams: TrainStreams;
  readonly source: ClockSource;
  readonly name: string;
  /** Its exposures, sorted. */
  readonly shutters: readonly Shutter[];
  readonly pauses: readonly MountPause[];
}

/** The pilot's log, because mount and guiding are written there; its headers if there is no log. */
export function referenceOf(pilot: TrainStreams): Reference {
  const isLogged = pilot.log.length > 0 || pilot.sharedMs.size > 0;
  const source = isLogged ? 'log' : 'headers';
  const written = isLogged && pilot.log.length > 0 ? pilot.log : pilot.headers;
  const shutters = [...written].sort((a, b) => a.beginMs - b.beginMs);
  return {
    streams: pilot,
    source,
    name: `the ${source} of ${pilot.train}`,
    shutters,
    pauses:
      pilot.moves.length > 0
        ? withOwnWork(
            loggedPauses(
              pilot.moves,
              pilot.settlings,
              shutters.map((s) => s.beginMs),
            ),
            shutters,
          )
        : gapPauses(shutters),
  };
}

/** Compares a train's log, or its headers, with the reference; `null` if it has none. */
export function compare(
  own: TrainStreams,
  source: ClockSource,
  exposures: readonly Shutter[],
  reference: Reference,
): Compared | null {
  const shutters = withReadiness(exposures, source === 'log' ? own.readyMs : []);
  const shared = source === 'log' && reference.source === 'log' ? sharedEvents(reference.streams, own) : [];
  const { evidence, seen } = lookSharply({
    shutters,
    pauses: reference.pauses,
    shared,
    cadenceMs: cadenceMs(shutters),
    favouredMs: favoured(own, source),
  });
  const base = {
    train: own.train,
    source,
    against: reference.name,
    isVouched: source === 'headers' && own.isVouched,
  };
  if (!seen)
    return exposures.length === 0 && shared.length === 0
      ? null
      : { ...base, aheadMs: 0, uncertaintyMs: 0, isKnown: false, by: NO_WITNESS };
  const toNone = { ...base, aheadMs: 0, uncertaintyMs: 0, isKnown: false, by: KEEPS_TO_NONE };
  // It probably ignores the mount: the best fit is then due to chance.
  if (seen.estimate.unrelatedShare > 0.5 && reference.pauses.length >= MANY_PAUSES) return toNone;
  const by = witnesses(seen.estimate, reference, evidence.shared.length > 0);
  const { jump, fitted } = jumpOf(own, source, seen, reference);
  // After a large jump an hour is written twice, or not at all: under a single offset much of that is contradictory.
  const isOneOffset = !jump || (fitted && Math.abs(fitted.afterMs - fitted.beforeMs) <= LARGE_JUMP_MS);
  if (isOneOffset && isFarAndDoubtful(evidence, seen.estimate.aheadMs)) {
    const drift = driftAboutAgreement(seen.thinned, seen.estimate.aheadMs);
    const steady = drift && look(withoutDrift(evidence, drift));
    if (steady && isSettled(steady) && !isFarAndDoubtful(steady.thinned, steady.estimate.aheadMs))
      return { ...base, ...offsetOf(steady.estimate, false), by, drift };
    const { aheadMs, uncertaintyMs, otherShare: share } = seen.estimate;
    return { ...base, aheadMs, uncertaintyMs, isKnown: false, by, second: { aheadMs: 0, share } };
  }
  const isByItself = (...offsetsMs: number[]): boolean =>
    source === 'log' && dithersByItself(reference.streams, own, offsetsMs);
  if (!jump) {
    const { aheadMs } = seen.estimate;
    const isOpen = mayBeHabit(aheadMs, evidence, reference.shutters);
    if (isByItself(aheadMs)) return toNone;
    if (mayBeChance(seen.estimate, evidence, isOpen) && wandersAgainst(evidence, () => aheadMs)) return toNone;
    return { ...base, ...offsetOf(seen.estimate, isOpen), by };
  }
  const steady = fitted && withoutItsDrift(evidence, seen.thinned, fitted);
  // No habit grows by the same amount every hour.
  if (steady)
    return wandersAgainst(steady.thinned, () => steady.estimate.aheadMs)
      ? toNone
      : { ...base, ...offsetOf(steady.estimate, false), by, drift: steady.drift };
  if (fitted) {
    const { atMs: setMs, beforeMs, afterMs } = fitted;
    if (isByItself(beforeMs, afterMs)) return toNone;
    // Gaps only: a restarted program fits such a large jump as well, and is more common.
    if (reference.pauses[0]?.by === 'gap' && Math.abs(afterMs - beforeMs) > LARGE_JUMP_MS) return toNone;
    if (wandersAgainst(evidence, (atMs) => (atMs < setMs ? beforeMs : afterMs))) return toNone;
  }
  const { aheadMs, uncertaintyMs } = seen.estimate;
  return { ...base, aheadMs, uncertaintyMs, isKnown: false, by: `${by}, which no single offset fits`, jump };
}

/** Whether an offset is supported by the dithers only, and is not a small one that may be a habit. */
function mayBeChance({ aheadMs, otherShare, secondMs }: OffsetEstimate, evidence: ClockEvidence, isOpen: boolean) {
  const isFarSecond = otherShare >= OTHER_SHARE_LIMIT && secondMs !== undefined && Math.abs(secondMs) > LATE_START_MS;
  return isFarSecond || (!isOpen && !evidence.favouredMs.includes(aheadMs));
}

/**
 * Clocks are set by more than this so rarely that gaps between frames are not sufficient evidence (common practice),
 * ms.
 */
const LARGE_JUMP_MS = 900_000;

/** A coordinated companion keeps to this fraction of dithers under the right clock. */
const MANY_PAUSES = 8;

/** The evidence for one offset all night. */
interface Seen {
  readonly thinned: ClockEvidence;
  readonly search: CoarseSearch;
  readonly estimate: OffsetEstimate;
}

/** The evidence without the events that one of the two logs reports at varying delays. */
function lookSharply(evidence: ClockEvidence): { readonly evidence: ClockEvidence; readonly seen: Seen | null } {
  const seen = look(evidence);
  const shared = seen ? sharpEvents(evidence.shared, seen.estimate.aheadMs) : evidence.shared;
  if (shared.length === evidence.shared.length || evidence.pauses.length === 0) return { evidence, seen };
  const sharp = { ...evidence, shared };
  return { evidence: sharp, seen: look(sharp) };
}

function look(evidence: ClockEvidence): Seen | null {
  const thinned = thin(evidence);
  const search = coarseSearch(thinned);
  const estimate = estimateOffset(evidence, thinned, search);
  return estimate && { thinned, search, estimate };
}

function offsetOf({ aheadMs, uncertaintyMs, otherShare, secondMs }: OffsetEstimate, isOpen: boolean) {
  // Two small offsets are a program whose delay varies.
  const isSecondSmall = secondMs === undefined || Math.abs(secondMs) <= LATE_START_MS;
  const otherMs = isOpen && isSecondSmall ? 0 : secondMs;
  return {
    aheadMs,
    uncertaintyMs,
    isKnown: otherShare < OTHER_SHARE_LIMIT && !isOpen,
    second: otherMs === undefined ? undefined : { aheadMs: otherMs, share: otherShare },
  };
}

/** The result if a drift explains an apparent jump: a known offset that holds all night. */
function withoutItsDrift(
  evidence: ClockEvidence,
  thinned: ClockEvidence,
  fitted: JumpInDithers,
): (Seen & { readonly drift: ClockDrift }) | null {
  const drift = driftInDithers(thinned, fitted);
  const steady = drift && look(withoutDrift(evidence, drift));
  return drift && steady && isSettled(steady) ? { ...steady, drift } : null;
}

/** Whether one offset holds all night. */
function isSettled({ estimate, thinned, search }: Seen): boolean {
  return estimate.otherShare < OTHER_SHARE_LIMIT && !jumpInDithers(thinned, search, []);
}

/** Whether this clock, or the reference, was set during the night; `fitted` if only dithers show it. */
function jumpOf(
  own: TrainStreams,
  source: ClockSource,
  { thinned, search, estimate }: Seen,
  { streams: pilot, shutters }: Reference,
): { readonly jump: ClockJump | null; readonly fitted?: JumpInDithers } {
  const turned = pilot.oddLengths.map((o) => ({ ...o, byMs: -o.byMs }));
  const hints = [...own.oddLengths, ...turned];
  const likely = jumpInDithers(thinned, search, hints);
  // Lines that go back are sufficient evidence.
  const isTraced = likely !== null && (own.backwards !== null || hasRoomFor(likely, thinned));
  const fitted = isTraced && !mayBeHabits(likely, thinned, shutters) ? likely : null;
  const byMs = fitted ? fitted.afterMs - fitted.beforeMs : 0;
  if (source === 'log' && own.backwards)
    // Lines that go back give only a lower limit.
    return { jump: byMs <= own.backwards.byMs ? { ...own.backwards, byMs } : own.backwards };
  if (source === 'log' && own.jump) return { jump: own.jump };
  if (fitted) return { jump: { atMs: fitted.atMs, byMs, isOwn: false }, fitted };
  const { aheadMs } = estimate;
  const edge = jumpAtTheEdge(thinned, aheadMs, [
    ...own.oddLengths.map((o) => ({ ...o, atMs: o.atMs - aheadMs })),
    ...turned,
  ]);
  return { jump: edge && { ...edge, isOwn: false } };
}

/** Clocks that agree are likely: this one with the reference, or with the same train's headers if this is its log. */
function favoured({ headersAhead }: TrainStreams, source: ClockSource): number[] {
  return source === 'log' && headersAhead && isWellDetermined(headersAhead) ? [0, -headersAhead.offsetMs] : [0];
}

function witnesses({ witnesses: n }: OffsetEstimate, { pauses }: Reference, hasShared: boolean): string {
  if (hasShared) return `${n} dithers and events that both recorded`;
  if (pauses[0]?.by === 'log') return counted(n, 'dither');
  return counted(n, 'gap that looks like a dither', 'gaps that look like dithers');
}
