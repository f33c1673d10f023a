import type { CountedLine } from '../base-choice.js';
import type { BaseLine } from '../base-lines.js';

/** Where counters begin anew: at the size of their numbers, and where the parts of a clock do. */
const SIZES = [
  2 ** 16,
  2 ** 20,
  2 ** 24,
  2 ** 32,
  3600,
  43_200,
  86_400,
  3_600_000,
  86_400_000,
  1e4,
  1e5,
  1e6,
  1e7,
  1e8,
  1e9,
] as const;
/** A counter falls by more than this part of its range only where it begins anew. */
const FALL = 0.5;
/** Maximum time that passes over the turn, ms: hardly a log is silent for longer. */
const SILENT_MS = 30 * 60_000;
/** A base states that the counter restarts within so many lines. */
const BESIDE = 3;

/**
 * The value at which a counter begins anew, in seconds of the log's time, if it falls back during the night: the
 * smallest usual one above its counts that lets little time pass over the turn. `null` if it never falls, or if a line
 * that states another base stands there.
 *
 * @param msPerCount what one of the counter's counts stands for
 */
export function turnOf(counts: readonly CountedLine[], bases: readonly BaseLine[], msPerCount: number): number | null {
  const most = Math.max(...counts.map(({ ms }) => ms));
  const falls = counts.flatMap(({ line, ms }, i) => {
    const before = counts[i - 1];
    return before !== undefined && before.ms - ms > FALL * most ? [{ line, from: before.ms, to: ms }] : [];
  });
  const isStated = falls.some(({ line }) => bases.some((base) => Math.abs(base.line.number - line) <= BESIDE));
  if (falls.length === 0 || isStated) return null;
  const size = [...SIZES]
    .sort((a, b) => a - b)
    .find((one) => {
      const ms = one * msPerCount;
      return ms > most && falls.every(({ from, to }) => ms - from + to <= SILENT_MS);
    });
  return size === undefined ? null : (size * msPerCount) / 1000;
}
