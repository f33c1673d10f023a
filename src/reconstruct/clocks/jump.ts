/**
 * A clock that was set in the middle of the night (by a time server, by hand): no single offset converts its times, so
 * none is applied. Three things reveal it: a log whose lines go back in time, an exposure whose logged length differs
 * from its actual one, and dithers that fit one offset before an instant and another after it.
 */
import {
  interval,
  itemAt,
  median,
  numbersOf,
  robustSpread,
  type ClockJump,
  type Interval,
  type LineTimes,
} from '../../model/index.js';
import type { LogExposure } from '../log-exposures.js';
import { runningSums, type ClockEvidence, type Habit } from './likelihood.js';
import { steps, type CoarseSearch } from './posterior.js';

/** Lines of a log may be this far out of order without a clock being set, ms. Common practice, no source. */
const DISORDER_MS = 5000;
/** An exposure's logged length varies by less than this from one to the next, ms. */
export const LEAST_JUMP_MS = 1000;
const SECOND_MS = 1000;
/** Multiple of the usual scatter of those lengths. */
const SCATTERS = 6;

/** A whole hour: what clocks are put back by when summer time ends. */
const HOUR_MS = 3_600_000;
/** A clock is put back between two lines, so that it seems to go back by less: by an exposure's length, at most, ms. */
const BETWEEN_LINES_MS = 15 * 60_000;

/** By how much a clock was set whose next line is earlier by `apartMs` than the last one. */
function setBackMs(apartMs: number): number {
  const hoursMs = Math.ceil(apartMs / HOUR_MS) * HOUR_MS;
  return hoursMs - apartMs <= BETWEEN_LINES_MS ? -hoursMs : -apartMs;
}

/**
 * The earliest place where a log's lines go back in time and stay there.
 *
 * @param times one train's
 */
export function jumpInLines(times: readonly LineTimes[]): ClockJump | null {
  for (const { atMs: lines } of times)
    for (let i = 0; i + 1 < lines.length; i++) {
      const [atMs, nextMs] = [itemAt(lines, i), itemAt(lines, i + 1)];
      // First the one comparison that nearly every line passes.
      if (!(atMs - nextMs > DISORDER_MS)) continue;
      const laterMs = lines[i + 2] ?? nextMs;
      if (atMs - laterMs > DISORDER_MS) return { atMs, byMs: setBackMs(atMs - nextMs), isOwn: true };
    }
  return null;
}

/** An exposure whose logged length differs from its actual one. */
export interface OddLength {
  /** When it ended according to the log, UTC ms. */
  readonly atMs: number;
  /** How much longer than actual; negative: shorter. */
  readonly byMs: number;
  /** Whether its file shows a full exposure, so that it was not merely aborted, or the program slow. */
  readonly isProven: boolean;
  /** Whether there is a file of it with a full exposure. */
  readonly isFull: boolean;
}

/**
 * Exposures whose logged length deviates from the requested one far more than the others' do.
 *
 * @param fullMs how long the shutter was open according to the resulting file, ms
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
    const isFull = fullMs(exposure) !== undefined;
    return [{ atMs: exposure.endMs, byMs, isProven: byMs < 0 && isFull, isFull }];
  });
}

/** The jump proven by an exposure that is shorter in the log than in its file. */
export function provenJump(odd: readonly OddLength[]): ClockJump | null {
  const proof = odd.find((o) => o.isProven);
  return proof ? { atMs: proof.atMs, byMs: proof.byMs, isOwn: true } : null;
}

/** Range and step of the search around fitting offsets, ms. */
const NEAR_MS = 3000;
const FINE_MS = 100;
/** Habits used in the fine comparison of a night's parts. */
export const PART_HABITS: readonly Habit[] = [400, 2000, 4000].map((delayMs) => ({ keeping: 0.9, delayMs }));
/** Fewer dithers on one side do not show a jump. */
export const FEWEST_PAUSES = 2;
/** Fewer exposures fit almost anything in two parts. */
const FEWEST_EXPOSURES = 12;
/** So few fit some large offset by chance that only nearby ones are tried, ms. */
const FEW_PAUSES = 5;
const FEW_REACH_MS = 180_000;
/**
 * How much better two offsets must explain the dithers than one, as a log-likelihood ratio: the logarithm of the number
 * of offsets and places to choose from (about 400), and of how rarely a clock is set in a night (one in twenty).
 * Simulated nights without a jump reach 1.1.
 */
const LEAST_GAIN = 9;
/** The same if the log itself indicates the place and the size. */
const LEAST_HINTED_GAIN = 3;
/** A hint supports a jump that it agrees with within this, ms. */
const HINT_MS = 1500;

/** Offsets before and after a clock was set, and about when. */
export interface JumpInDithers {
  readonly beforeMs: number;
  readonly afterMs: number;
  readonly atMs: number;
  /** From the last dither before it to the first one after, on the reference’s clock. */
  readonly between: Interval;
  /** Log-likelihood ratio of the two against a clock unrelated to the dithers. */
  readonly raw: number;
}

/**
 * The jump implied by the dithers: those before it fit one offset and those after it another, far better than any
 * single offset fits them all.
 *
 * @param evidence its pauses in chronological order
 * @param hints exposures of deviating length on this clock, or on the reference with the sign inverted
 */
export function jumpInDithers(
  evidence: ClockEvidence,
  search: CoarseSearch,
  hints: readonly OddLength[],
): JumpInDithers | null {
  const { pauses } = evidence;
  if (pauses.length < 3 * FEWEST_PAUSES || evidence.shutters.length < FEWEST_EXPOSURES) return null;
  const coarse = bestFit([search]);
  if (!coarse) return null;
  const places = [coarse.oneMs, coarse.beforeMs, coarse.afterMs, ...evidence.favouredMs];
  const fine = new Set(places.flatMap((ms) => steps(ms - NEAR_MS, ms + NEAR_MS, FINE_MS)));
  const offsetsMs = [...fine];
  const best = bestFit(PART_HABITS.map((habit) => ({ offsetsMs, sums: runningSums(evidence, offsetsMs, habit) })));
  const [last, first] = best ? [pauses[best.split - 1], pauses[best.split]] : [];
  if (!best || !last || !first || Math.abs(best.afterMs - best.beforeMs) < leastJumpMs(evidence)) return null;
  const isHinted = hints.some(
    (h) =>
      Math.abs(h.byMs - (best.afterMs - best.beforeMs)) <= HINT_MS &&
      h.atMs - best.beforeMs >= last.moveMs - NEAR_MS &&
      h.atMs - best.afterMs <= first.moveMs + NEAR_MS,
  );
  if (best.gain < (isHinted ? LEAST_HINTED_GAIN : LEAST_GAIN)) return null;
  // If the mount moves regardless of open shutters, every offset fits badly, and two somewhat less so by chance.
  if (best.raw < LEAST_GAIN) return null;
  return {
    beforeMs: best.beforeMs,
    afterMs: best.afterMs,
    between: interval(last.moveMs, Math.max(last.moveMs, first.moveMs)),
    atMs: Math.round((last.moveMs + first.moveMs) / 2),
    raw: best.raw,
  };
}

/** Smallest jump that dithers can show, ms: times written to the whole second move by as much between the two sides. */
function leastJumpMs({ shutters, pauses }: ClockEvidence): number {
  const written = [shutters.map((s) => s.beginMs), pauses.map((p) => p.moveMs)];
  return LEAST_JUMP_MS + SECOND_MS * written.filter(areWholeSeconds).length;
}

function areWholeSeconds(instants: readonly number[]): boolean {
  return instants.every((ms) => (ms - itemAt(instants, 0)) % SECOND_MS === 0);
}

/** The best offset of one side of a split: `value` is `raw` minus a penalty for such a large jump. */
interface Side {
  readonly value: number;
  readonly raw: number;
  readonly ms: number;
}

interface Fit {
  readonly oneMs: number;
  readonly beforeMs: number;
  readonly afterMs: number;
  /** Pauses before the jump. */
  readonly split: number;
  /** Log-likelihood ratio of the two against a clock unrelated to the dithers. */
  readonly raw: number;
  /** How much better than a single offset. */
  readonly gain: number;
}

/** @param searches the same offsets under one habit each */
function bestFit(searches: readonly CoarseSearch[]): Fit | null {
  const n = (searches[0]?.sums.length ?? 1) - 1;
  const one = greatest(searches.map(({ offsetsMs, sums }) => greatestOf(offsetsMs, itemAt(sums, n))));
  const splits = Array.from({ length: n + 1 - 2 * FEWEST_PAUSES }, (_, i) => i + FEWEST_PAUSES);
  const two = greatest(
    searches.flatMap(({ offsetsMs, sums }) => {
      const side = sideOf(offsetsMs, one.ms);
      return splits.map((split) => {
        const before = side(itemAt(sums, 0), itemAt(sums, split), split);
        const after = side(itemAt(sums, split), itemAt(sums, n), n - split);
        const raw = before.raw + after.raw;
        return { value: before.value + after.value, raw, split, beforeMs: before.ms, afterMs: after.ms };
      });
    }),
  );
  if (!Number.isFinite(one.value) || !Number.isFinite(two.value)) return null;
  return { oneMs: one.ms, ...two, gain: two.raw - one.value };
}

function greatestOf(offsetsMs: readonly number[], values: Float64Array): { value: number; ms: number } {
  const k = values.reduce((best, value, i) => (value > values[best]! ? i : best), 0);
  return { value: itemAt(values, k), ms: itemAt(offsetsMs, k) };
}

/** Finds the best offset for one side of a split. Small jumps are more common than large ones. */
function sideOf(offsetsMs: readonly number[], oneMs: number) {
  const byMs = numbersOf(offsetsMs, (ms) => Math.abs(ms - oneMs));
  const doubt = byMs.map((ms) => Math.log1p(ms / 1000));
  return (from: Float64Array, to: Float64Array, pauses: number): Side => {
    const reachMs = pauses < FEW_PAUSES ? FEW_REACH_MS : Infinity;
    let [best, value] = [-1, -Infinity];
    for (let k = 0; k < byMs.length; k++) {
      const its = to[k]! - from[k]! - doubt[k]!;
      if (its > value && byMs[k]! <= reachMs) [best, value] = [k, its];
    }
    return best < 0
      ? { value, raw: -Infinity, ms: oneMs }
      : { value, raw: itemAt(to, best) - itemAt(from, best), ms: itemAt(offsetsMs, best) };
  };
}

function greatest<T extends { readonly value: number }>(items: readonly T[]): T {
  return items.reduce((a, b) => (b.value > a.value ? b : a));
}
