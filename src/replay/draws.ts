/**
 * The source of a run's durations: in the order they were measured, or resampled from all measured ones.
 *
 * Draws are a function of seed, kind and number only, so that two runs with one seed have the same readouts and the
 * same settling whatever their rules: differences between them are due to the rules.
 */
import type { Durations } from './course.js';

/** Kinds of draw; they do not share their numbers. */
const STREAMS = { cycle: 1, turnaround: 2, resume: 3, shift: 4 } as const;
export type Stream = keyof typeof STREAMS;

const GOLDEN = (Math.sqrt(5) - 1) / 2;

export interface Draws {
  /** A duration, ms. `train` and `index` identify the one requested. */
  take(durations: Durations, stream: Stream, train: number, index: number): number;
  /** Shift of an event of the night, ms: zero in the exact replay. */
  shiftMs(reachMs: number, index: number): number;
}

/** The measured durations in order; the median if one is missing. */
export const inOrder: Draws = {
  take: (durations, _stream, _train, index) => durations.inOrder[index] ?? durations.typicalMs,
  shiftMs: () => 0,
};

/** Durations resampled with replacement (bootstrap; Efron 1979, Ann. Statist. 7, 1). */
export function resampled(seed: number): Draws {
  return {
    take({ pool, typicalMs }, stream, train, index) {
      return pool[Math.floor(uniform(seed, STREAMS[stream], train, index) * pool.length)] ?? typicalMs;
    },
    // Spread evenly over the runs by the golden section (additive recurrence), rather than randomly: a dozen are few.
    shiftMs: (reachMs, index) =>
      Math.round((((uniform(0, STREAMS.shift, 0, index) + seed * GOLDEN) % 1) - 0.5) * reachMs),
  };
}

/**
 * A number in [0, 1) that depends on its arguments alone: a 32-bit integer mix (finaliser of MurmurHash3, public
 * domain; constants from memory).
 */
function uniform(seed: number, a: number, b: number, c: number): number {
  let h =
    Math.imul(seed + 1, 0x9e3779b1) ^
    Math.imul(a + 1, 0x85ebca6b) ^
    Math.imul(b + 1, 0xc2b2ae35) ^
    Math.imul(c + 1, 0x27d4eb2f);
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296;
}
