/**
 * A clock that was set in the middle of the night (by a time server, by hand): no single offset brings its times to
 * the reference's, so that none is taken. Three things show it: a log whose lines go back in time, an exposure that by
 * its log lasted longer or shorter than it did, and dithers that fit one offset before an instant and another after it.
 */
import { groupBy, median, robustSpread, type ClockJump, type LogEvent } from '../../model/index.js';
import type { LogExposure } from '../log-exposures.js';
import { logLikelihoodOfPause, type ClockEvidence, type Habit } from './likelihood.js';

/** Lines of a log stand this much out of order without a clock being set, ms. Common practice, no source. */
const DISORDER_MS = 5000;
/** An exposure's length by its log differs by less than this from one to the next, ms. */
const LEAST_JUMP_MS = 1000;
/** Times the usual scatter of those lengths. */
const SCATTERS = 6;

/**
 * Where a log's lines go back in time and stay there; the earliest such place.
 *
 * @param events one train's, in any order
 */
export function jumpInLines(events: readonly LogEvent[]): ClockJump | null {
  for (const own of groupBy(events, (e) => e.source.file).values()) {
    const lines = [...own].sort((a, b) => (a.source.line ?? 0) - (b.source.line ?? 0));
    for (const [i, event] of lines.entries()) {
      const next = lines[i + 1];
      const later = lines[i + 2] ?? next;
      if (!next || !later || event.source.line === undefined || next.source.line === undefined) continue;
      if (event.atMs - next.atMs > DISORDER_MS && event.atMs - later.atMs > DISORDER_MS)
        return { atMs: event.atMs, byMs: next.atMs - event.atMs, isOwn: true };
    }
  }
  return null;
}

/** An exposure that its log calls longer or shorter than it was. */
export interface OddLength {
  /** When it ended by the log, UTC ms. */
  readonly atMs: number;
  /** How much longer than it was; negative: shorter. */
  readonly byMs: number;
  /** Whether its file says that it was exposed in full, so that it was not merely cut short or a program slow. */
  readonly isProven: boolean;
}

/**
 * Exposures whose length by the log departs from what was asked, far more than the others' do.
 *
 * @param fullMs how long the shutter was open by the file that an exposure became, ms
 */
export function oddLengths(
  exposures: readonly LogExposure[],
  fullMs: (exposure: LogExposure) => number | undefined,
): OddLength[] {
  const ended = exposures.flatMap((e) => {
    const lengthMs = fullMs(e) ?? e.askedMs;
    return e.endKnown && !e.aborted && lengthMs !== undefined
      ? [{ exposure: e, lengthMs, excessMs: e.endMs - e.beginMs - lengthMs }]
      : [];
  });
  if (ended.length < 3) return [];
  const excesses = ended.map((e) => e.excessMs);
  const usualMs = median(excesses);
  const leastMs = Math.max(LEAST_JUMP_MS, SCATTERS * robustSpread(excesses));
  return ended.flatMap(({ exposure, excessMs }): OddLength[] => {
    const byMs = excessMs - usualMs;
    if (Math.abs(byMs) < leastMs) return [];
    return [{ atMs: exposure.endMs, byMs, isProven: byMs < 0 && fullMs(exposure) !== undefined }];
  });
}

/** The jump that an exposure shorter by the log than by its file proves. */
export function provenJump(odd: readonly OddLength[]): ClockJump | null {
  const proof = odd.find((o) => o.isProven);
  return proof ? { atMs: proof.atMs, byMs: proof.byMs, isOwn: true } : null;
}

/** Offsets looked at about those that fit, ms: how far to both sides, and how finely. */
const NEAR_MS = 3000;
const FINE_MS = 100;
const COARSE_MS = 2000;
/** Habits under which the parts of a night are compared, roughly and finely. */
const COARSE_HABITS: readonly Habit[] = [{ keeping: 0.9, delayMs: 4000 }];
const HABITS: readonly Habit[] = [400, 2000, 4000].map((delayMs) => ({ keeping: 0.9, delayMs }));
/** Fewer dithers than this tell no offset. */
const FEWEST_PAUSES = 3;
/**
 * How much better two offsets must explain the dithers than one, as a logarithm of likelihoods: the logarithm of the
 * offsets and places to choose among, and of how seldom a clock is set in a night.
 */
const LEAST_GAIN = 12;
/** The same where the log itself points at the place and the size. */
const LEAST_HINTED_GAIN = 3;
/** A hint is of the jump that it agrees with to this, ms. */
const HINT_MS = 1500;

/**
 * The jump that the dithers tell: those before it fit one offset and those after it another, far better than any one
 * offset fits them all.
 *
 * @param hints exposures of odd length by this clock, or by the reference with the sign turned
 * @param reachMs offsets to both sides that are looked at
 */
export function jumpInDithers(
  evidence: ClockEvidence,
  hints: readonly OddLength[],
  reachMs: number,
): { readonly beforeMs: number; readonly afterMs: number; readonly atMs: number } | null {
  const pauses = [...evidence.pauses].sort((a, b) => a.moveMs - b.moveMs);
  if (pauses.length < 2 * FEWEST_PAUSES) return null;
  const sorted = { ...evidence, pauses };
  const coarse = bestFit(sorted, COARSE_HABITS, steps(-reachMs, reachMs, COARSE_MS));
  if (!coarse) return null;
  const places = [coarse.oneMs, coarse.beforeMs, coarse.afterMs, ...evidence.favouredMs];
  const fine = new Set(places.flatMap((ms) => steps(ms - NEAR_MS, ms + NEAR_MS, FINE_MS)));
  const best = bestFit(sorted, HABITS, [...fine]);
  const [last, first] = best ? [pauses[best.split - 1], pauses[best.split]] : [];
  if (!best || !last || !first || Math.abs(best.afterMs - best.beforeMs) < LEAST_JUMP_MS) return null;
  const isHinted = hints.some(
    (h) =>
      Math.abs(h.byMs - (best.afterMs - best.beforeMs)) <= HINT_MS &&
      h.atMs - best.beforeMs >= last.moveMs - NEAR_MS &&
      h.atMs - best.afterMs <= first.moveMs + NEAR_MS,
  );
  if (best.gain < (isHinted ? LEAST_HINTED_GAIN : LEAST_GAIN)) return null;
  return { beforeMs: best.beforeMs, afterMs: best.afterMs, atMs: Math.round((last.moveMs + first.moveMs) / 2) };
}

interface Fit {
  readonly oneMs: number;
  readonly beforeMs: number;
  readonly afterMs: number;
  /** Pauses before the jump. */
  readonly split: number;
  readonly gain: number;
}

function bestFit(evidence: ClockEvidence, habits: readonly Habit[], offsets: readonly number[]): Fit | null {
  const n = evidence.pauses.length;
  let one = { value: -Infinity, ms: 0 };
  let two = { value: -Infinity, split: 0, beforeMs: 0, afterMs: 0 };
  for (const habit of habits) {
    const before = Array.from({ length: n + 1 }, () => ({ value: -Infinity, ms: 0 }));
    const after = Array.from({ length: n + 1 }, () => ({ value: -Infinity, ms: 0 }));
    for (const ms of offsets) {
      const each = evidence.pauses.map((pause) => logLikelihoodOfPause(evidence, pause, ms, habit));
      const total = each.reduce((sum, v) => sum + v, 0);
      if (total > one.value) one = { value: total, ms };
      let value = 0;
      for (let split = 1; split < n; split++) {
        value += each[split - 1] ?? 0;
        if (value > (before[split]?.value ?? Infinity)) before[split] = { value, ms };
        if (total - value > (after[split]?.value ?? Infinity)) after[split] = { value: total - value, ms };
      }
    }
    for (let split = FEWEST_PAUSES; split <= n - FEWEST_PAUSES; split++) {
      const [b, a] = [before[split], after[split]];
      if (b && a && b.value + a.value > two.value)
        two = { value: b.value + a.value, split, beforeMs: b.ms, afterMs: a.ms };
    }
  }
  if (!Number.isFinite(one.value) || !Number.isFinite(two.value)) return null;
  return { oneMs: one.ms, ...two, gain: two.value - one.value };
}

function steps(fromMs: number, toMs: number, stepMs: number): number[] {
  return Array.from({ length: Math.floor((toMs - fromMs) / stepMs) + 1 }, (_, i) => fromMs + i * stepMs);
}
